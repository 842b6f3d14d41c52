package phrasecensus.music.phrase;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.zip.GZIPInputStream;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import phrasecensus.music.phrase.BreathTuning.Example;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.Mark;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.SoloDescription;
import phrasecensus.music.score.TempoChange;
import phrasecensus.music.time.Fraction;

/**
 * The solos with human phrase marks that lie beside the project, when they do: 220 solos of the
 * Weimar Jazz Database (M. Pfleiderer et al., 2017; through the R data package jazzodata, MIT).
 * Notes come from the table, bars, tempo and rehearsal marks from the scores.
 */
final class HumanPhrases {
  private HumanPhrases() {}

  /** Style of each solo beside it as an example grouped by player. */
  record Solos(List<Example> examples, List<String> styles) {}

  /** The folder with the solos; null when it is not there. */
  static Path folder() {
    String root = System.getProperty("project.root");
    Path folder = root == null ? null : Path.of(root, "..", "shared", "data", "solos").normalize();
    return folder != null && Files.exists(folder.resolve("phrases.csv")) ? folder : null;
  }

  static Solos read(Path folder) throws IOException {
    Map<String, List<Map<String, String>>> truth = new HashMap<>();
    for (var row : rows(Files.newInputStream(folder.resolve("phrases.csv")))) {
      truth.computeIfAbsent(row.get("song"), song -> new ArrayList<>()).add(row);
    }
    Map<String, List<Map<String, String>>> notes = new HashMap<>();
    for (var row :
        rows(new GZIPInputStream(Files.newInputStream(folder.resolve("notes.csv.gz"))))) {
      notes.computeIfAbsent(row.get("song"), song -> new ArrayList<>()).add(row);
    }
    List<Example> examples = new ArrayList<>();
    List<String> styles = new ArrayList<>();
    for (var row : rows(Files.newInputStream(folder.resolve("solos.csv")))) {
      String song = row.get("song");
      List<Integer> boundaries =
          truth.get(song).stream()
              .map(phrase -> Integer.valueOf(phrase.get("note_index")))
              .filter(note -> note > 0)
              .toList();
      Solo solo = solo(folder.resolve("xml").resolve(song + ".musicxml"), notes.get(song));
      examples.add(new Example(song, row.get("performer"), solo, boundaries));
      styles.add(row.get("style"));
    }
    return new Solos(examples, styles);
  }

  private static Solo solo(Path score, List<Map<String, String>> rows) throws IOException {
    List<Bar> bars = new ArrayList<>();
    List<Mark> marks = new ArrayList<>();
    List<TempoChange> tempi = new ArrayList<>();
    XMLInputFactory factory = XMLInputFactory.newFactory();
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    try (InputStream stream = Files.newInputStream(score)) {
      XMLStreamReader xml = factory.createXMLStreamReader(stream);
      Fraction at = Fraction.ZERO;
      Fraction barStart = at;
      String number = "";
      long divisions = 1;
      int beats = 4;
      Metre metre = Metre.FREE;
      while (xml.hasNext()) {
        int event = xml.next();
        if (event == XMLStreamConstants.START_ELEMENT) {
          switch (xml.getLocalName()) {
            case "measure" -> {
              barStart = at;
              number = xml.getAttributeValue(null, "number");
            }
            case "divisions" -> divisions = Long.parseLong(xml.getElementText());
            case "beats" -> beats = Integer.parseInt(xml.getElementText());
            case "beat-type" -> metre = Metre.of(beats, Integer.parseInt(xml.getElementText()));
            case "duration" ->
                at = at.plus(Fraction.of(Long.parseLong(xml.getElementText()), divisions));
            case "rehearsal" ->
                marks.add(new Mark(Mark.Kind.REHEARSAL, at, at, xml.getElementText()));
            case "sound" -> {
              String tempo = xml.getAttributeValue(null, "tempo");
              if (tempo != null) {
                tempi.add(new TempoChange(at, Double.parseDouble(tempo)));
              }
            }
            default -> {
              // the rest of the score is not needed here
            }
          }
        } else if (event == XMLStreamConstants.END_ELEMENT
            && xml.getLocalName().equals("measure")) {
          bars.add(
              new Bar(
                  bars.size(), number, barStart, at.minus(barStart), metre, Fraction.ZERO, false));
        }
      }
    } catch (XMLStreamException e) {
      throw new IOException("Cannot read " + score, e);
    }
    List<Note> notes = new ArrayList<>();
    int bar = 0;
    for (var row : rows) {
      Fraction onset = Fraction.parse(row.get("onset_ql"));
      bar = Joint.barAt(bars, bar, onset);
      notes.add(
          Note.plain(
              notes.size(),
              onset,
              Fraction.parse(row.get("duration_ql")),
              Tunes.pitch(Integer.parseInt(row.get("midi"))),
              bar));
    }
    return new Solo(
        new SoloDescription("", Map.of(), Map.of(), "P1", "", "", "only part", "none"),
        bars,
        notes,
        List.of(),
        List.of(),
        List.of(),
        tempi,
        marks,
        List.of(),
        List.of());
  }

  /** Rows of a comma-separated table with a header; quoted fields may hold commas. */
  private static List<Map<String, String>> rows(InputStream stream) throws IOException {
    List<Map<String, String>> rows = new ArrayList<>();
    try (BufferedReader reader =
        new BufferedReader(new InputStreamReader(stream, StandardCharsets.UTF_8))) {
      List<String> header = fields(reader.readLine());
      for (String line = reader.readLine(); line != null; line = reader.readLine()) {
        List<String> fields = fields(line);
        Map<String, String> row = new LinkedHashMap<>();
        for (int i = 0; i < header.size(); i++) {
          row.put(header.get(i), fields.get(i));
        }
        rows.add(row);
      }
    }
    return rows;
  }

  private static List<String> fields(String line) {
    List<String> fields = new ArrayList<>();
    StringBuilder field = new StringBuilder();
    boolean quoted = false;
    for (char c : line.toCharArray()) {
      if (c == '"') {
        quoted = !quoted;
      } else if (c == ',' && !quoted) {
        fields.add(field.toString());
        field.setLength(0);
      } else {
        field.append(c);
      }
    }
    fields.add(field.toString());
    return fields;
  }
}
