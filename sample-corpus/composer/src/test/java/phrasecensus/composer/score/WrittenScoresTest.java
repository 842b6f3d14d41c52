package phrasecensus.composer.score;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilder;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import phrasecensus.composer.SampleCorpus;
import phrasecensus.composer.cast.Commission;
import phrasecensus.composer.cast.Instrument;
import phrasecensus.composer.cast.Programme;
import phrasecensus.composer.line.Solo;
import phrasecensus.composer.line.Tone;

/** Reads every written file back with the JDK's parser, document types not loaded. */
class WrittenScoresTest {
  /** Order of a note's children in the MusicXML 4.0 schema, those the composer uses. */
  private static final List<String> NOTE_ORDER =
      List.of(
          "grace",
          "chord",
          "pitch",
          "rest",
          "duration",
          "tie",
          "voice",
          "type",
          "dot",
          "accidental",
          "time-modification",
          "stem",
          "staff",
          "beam",
          "notations");

  private static final Map<String, Document> SCORES = new TreeMap<>();
  private static final Map<String, Commission> COMMISSIONS = new HashMap<>();

  @BeforeAll
  static void read() throws Exception {
    DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
    factory.setFeature(XMLConstants.FEATURE_SECURE_PROCESSING, true);
    factory.setFeature("http://apache.org/xml/features/nonvalidating/load-external-dtd", false);
    DocumentBuilder builder = factory.newDocumentBuilder();
    for (Map.Entry<String, byte[]> file : SampleCorpus.files().entrySet()) {
      if (!file.getKey().endsWith(".csv")) {
        byte[] xml = file.getKey().endsWith(".mxl") ? unzipped(file.getValue()) : file.getValue();
        SCORES.put(file.getKey(), builder.parse(new ByteArrayInputStream(xml)));
      }
    }
    Programme.corpus().forEach(c -> COMMISSIONS.put(c.file(), c));
    Programme.students().forEach(c -> COMMISSIONS.put(c.file(), c));
  }

  private static byte[] unzipped(byte[] container) throws IOException {
    try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(container))) {
      for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
        if (entry.getName().equals("score.musicxml")) {
          return zip.readAllBytes();
        }
      }
    }
    throw new IOException("Cannot find score.musicxml in the container");
  }

  @Test
  void everyScoreNamesThisComposerAndItsRights() {
    SCORES.forEach(
        (file, score) -> {
          assertThat(text(score.getDocumentElement(), "software"))
              .as(file)
              .isEqualTo("Phrase Census sample composer");
          assertThat(text(score.getDocumentElement(), "rights")).as(file).contains("CC0");
        });
  }

  @Test
  void barsAddUpToTheMetreInEveryPart() {
    SCORES.forEach(
        (file, score) -> {
          for (Element part : all(score.getDocumentElement(), "part")) {
            checkBars(file, part);
          }
        });
  }

  private static void checkBars(String file, Element part) {
    int bar = 0;
    for (Element measure : all(part, "measure")) {
      if (bar == 0) {
        bar =
            Integer.parseInt(text(measure, "divisions")) * Integer.parseInt(text(measure, "beats"));
      }
      int at = 0;
      int furthest = 0;
      for (Element child : children(measure)) {
        if (child.getTagName().equals("note") && all(child, "chord").isEmpty()) {
          at += duration(child);
        } else if (child.getTagName().equals("backup")) {
          at -= duration(child);
        }
        furthest = Math.max(furthest, at);
      }
      String where = file + " bar " + measure.getAttribute("number");
      if (measure.getAttribute("implicit").equals("yes")) {
        assertThat(furthest).as(where).isLessThan(bar);
      } else {
        assertThat(furthest).as(where).isEqualTo(bar);
      }
      assertThat(at).as(where).isEqualTo(furthest);
    }
  }

  @Test
  void notesHaveTheirChildrenInTheOrderOfTheSchema() {
    SCORES.forEach(
        (file, score) -> {
          for (Element note : all(score.getDocumentElement(), "note")) {
            List<Integer> places = new ArrayList<>();
            for (Element child : children(note)) {
              places.add(NOTE_ORDER.indexOf(child.getTagName()));
            }
            assertThat(places).as(file).isSorted().doesNotContain(-1);
          }
        });
  }

  /** Ties joined and transposition undone, a file holds exactly the tones that were composed. */
  @Test
  void writtenNotesSoundAsComposed() {
    SCORES.forEach(
        (file, score) -> {
          Commission commission = COMMISSIONS.get(file);
          Solo solo = commission.solo();
          List<String> composed = new ArrayList<>();
          for (Tone tone : solo.tones()) {
            composed.add(tone.onset() + solo.pickup() + " " + tone.length() + " " + tone.midi());
          }
          assertThat(sounding(score, solo.pickup(), commission.tune().barTicks()))
              .as(file)
              .isEqualTo(composed);
        });
  }

  private static List<String> sounding(Document score, int pickup, int barTicks) {
    Element part = all(score.getDocumentElement(), "part").get(0);
    int divisions = Integer.parseInt(text(part, "divisions"));
    int up = transposition(part);
    List<int[]> tones = new ArrayList<>();
    boolean tied = false;
    int barStart = 0;
    for (Element measure : all(part, "measure")) {
      int at = barStart;
      for (Element note : children(measure)) {
        if (!note.getTagName().equals("note") || !all(note, "grace").isEmpty()) {
          continue;
        }
        int ticks = Math.toIntExact(24L * duration(note) / divisions);
        if (all(note, "rest").isEmpty()) {
          int midi = midi(note) + up;
          boolean stops = hasTie(note, "stop");
          assertThat(stops).as("tie stop where a tie started").isEqualTo(tied);
          if (stops) {
            int[] last = tones.get(tones.size() - 1);
            assertThat(midi).isEqualTo(last[2]);
            assertThat(at).isEqualTo(last[0] + last[1]);
            last[1] += ticks;
          } else {
            tones.add(new int[] {at, ticks, midi});
          }
          tied = hasTie(note, "start");
        }
        at += ticks;
      }
      barStart += measure.getAttribute("implicit").equals("yes") ? pickup : barTicks;
    }
    assertThat(tied).as("tie left open at the end").isFalse();
    return tones.stream().map(t -> t[0] + " " + t[1] + " " + t[2]).toList();
  }

  private static boolean hasTie(Element note, String type) {
    return all(note, "tie").stream().anyMatch(tie -> tie.getAttribute("type").equals(type));
  }

  private static int midi(Element note) {
    int natural = List.of(0, 2, 4, 5, 7, 9, 11).get("CDEFGAB".indexOf(text(note, "step")));
    int alter = all(note, "alter").isEmpty() ? 0 : Integer.parseInt(text(note, "alter"));
    return 12 * (Integer.parseInt(text(note, "octave")) + 1) + natural + alter;
  }

  private static int transposition(Element part) {
    if (all(part, "transpose").isEmpty()) {
      return 0;
    }
    Element transpose = all(part, "transpose").get(0);
    int octaves =
        all(transpose, "octave-change").isEmpty()
            ? 0
            : Integer.parseInt(text(transpose, "octave-change"));
    return Integer.parseInt(text(transpose, "chromatic")) + 12 * octaves;
  }

  @Test
  void tupletsAndSlursOpenAndCloseInTurn() {
    SCORES.forEach(
        (file, score) -> {
          for (String name : new String[] {"tuplet", "slur"}) {
            boolean open = false;
            for (Element mark : all(score.getDocumentElement(), name)) {
              assertThat(mark.getAttribute("type")).as(file).isEqualTo(open ? "stop" : "start");
              open = !open;
            }
            assertThat(open).as(file).isFalse();
          }
        });
  }

  /**
   * A clarinet reads a tone above the sound: two sharps more in the signature (common practice).
   */
  @Test
  void transposedPartsHaveTheSignatureOfTheReader() {
    SCORES.forEach(
        (file, score) -> {
          Commission commission = COMMISSIONS.get(file);
          Instrument instrument = commission.player().instrument();
          int expected = commission.tune().key().fifths();
          if (commission.dialect() != Dialect.CONCERT) {
            expected +=
                switch (instrument) {
                  case CLARINET, FLUGELHORN -> 2;
                  case ALTO_FLUTE -> -1;
                  case TROMBONE, VIBRAPHONE, GUITAR -> 0;
                };
          }
          Element part = all(score.getDocumentElement(), "part").get(0);
          assertThat(text(part, "fifths")).as(file).isEqualTo(String.valueOf(expected));
        });
  }

  @Test
  void corpusShowsManyChordKindsAndEveryManner() {
    TreeSet<String> kinds = new TreeSet<>();
    SCORES
        .values()
        .forEach(
            s ->
                all(s.getDocumentElement(), "kind")
                    .forEach(kind -> kinds.add(kind.getTextContent())));
    TreeSet<Dialect> dialects = new TreeSet<>();
    COMMISSIONS.values().forEach(commission -> dialects.add(commission.dialect()));

    assertThat(kinds)
        .contains(
            "major",
            "major-sixth",
            "major-seventh",
            "major-ninth",
            "dominant",
            "dominant-ninth",
            "dominant-13th",
            "augmented-seventh",
            "suspended-fourth",
            "minor-seventh",
            "minor-ninth",
            "minor-11th",
            "minor-sixth",
            "major-minor",
            "half-diminished",
            "diminished-seventh",
            "none");
    assertThat(dialects).containsExactly(Dialect.values());
  }

  private static int duration(Element parent) {
    List<Element> durations = all(parent, "duration");
    return durations.isEmpty() ? 0 : Integer.parseInt(durations.get(0).getTextContent());
  }

  private static String text(Element parent, String name) {
    return all(parent, name).get(0).getTextContent();
  }

  private static List<Element> all(Element parent, String name) {
    List<Element> found = new ArrayList<>();
    var nodes = parent.getElementsByTagName(name);
    for (int i = 0; i < nodes.getLength(); i++) {
      found.add((Element) nodes.item(i));
    }
    return found;
  }

  private static List<Element> children(Element parent) {
    List<Element> found = new ArrayList<>();
    for (Node node = parent.getFirstChild(); node != null; node = node.getNextSibling()) {
      if (node instanceof Element element) {
        found.add(element);
      }
    }
    return found;
  }
}
