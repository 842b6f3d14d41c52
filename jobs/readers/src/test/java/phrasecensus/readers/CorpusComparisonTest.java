package phrasecensus.readers;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.zip.GZIPInputStream;
import org.junit.jupiter.api.Test;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;

/**
 * Open data: 220 solos of the Weimar Jazz Database with the onset, length and pitch of each note as
 * the database has them, the same solos transposed, and files exported again by MuseScore 3.2.3;
 * 150 lead sheets of OpenEWLD.
 */
class CorpusComparisonTest {
  private static Solo solo(Path file) {
    ReadResult result =
        SoloReader.read(
            SharedFolder.bytes(file), file.getFileName().toString(), ReadSettings.defaults());
    assertThat(result.outcome())
        .as(file + ": " + result.reason())
        .isEqualTo(ReadResult.Outcome.READ);
    return result.solo();
  }

  @Test
  void everyNoteOfTheSolosIsReadExactly() throws IOException {
    Path folder = SharedFolder.existing("data/solos");
    Map<String, List<String>> truth = new TreeMap<>();
    Map<String, List<String>> chordTruth = new TreeMap<>();
    try (BufferedReader lines =
        new BufferedReader(
            new InputStreamReader(
                new GZIPInputStream(
                    new ByteArrayInputStream(SharedFolder.bytes(folder.resolve("notes.csv.gz")))),
                StandardCharsets.UTF_8))) {
      lines.readLine();
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        List<String> cells = CasesComparisonTest.cells(line);
        truth
            .computeIfAbsent(cells.get(0), song -> new ArrayList<>())
            .add(cells.get(2) + " " + cells.get(3) + " " + cells.get(4));
        chordTruth.computeIfAbsent(cells.get(0), song -> new ArrayList<>()).add(cells.get(5));
      }
    }
    int solos = 0;
    long notes = 0;
    List<String> differentChords = new ArrayList<>();
    for (Path file : SharedFolder.files(folder.resolve("xml"))) {
      Solo solo = solo(file);
      String song = file.getFileName().toString().replace(".musicxml", "");
      assertThat(notes(solo)).as(song).isEqualTo(truth.get(song));
      List<String> chords = chordTruth.get(song);
      for (Note note : solo.notes()) {
        String name = chords.get(note.index());
        String root = solo.chordAt(note.onset()).map(CorpusComparisonTest::root).orElse("");
        String expected =
            name.isEmpty() || name.equals("NC") || name.equals("NA")
                ? ""
                : name.replaceFirst("^([A-G][b#]?).*", "$1");
        if (!root.equals(expected)) {
          differentChords.add(song + " note " + note.index() + " " + name + " but " + root);
        }
      }
      solos++;
      notes += solo.notes().size();
    }

    assertThat(solos).isEqualTo(220);
    assertThat(notes).isGreaterThan(90_000);
    assertThat(differentChords).isEmpty();
  }

  private static String root(ChordSpan span) {
    return span.concert().root() == null
        ? ""
        : span.concert().root().toString().replace('♯', '#').replace('♭', 'b');
  }

  private static List<Bar> barsWithoutSigns(Solo solo) {
    return solo.bars().stream()
        .map(
            bar ->
                new Bar(
                    bar.index(),
                    bar.number(),
                    bar.onset(),
                    bar.length(),
                    bar.metre(),
                    bar.metricalOffset(),
                    bar.pickup()))
        .toList();
  }

  @Test
  void transposedTwinsSoundTheSame() throws IOException {
    Path folder = SharedFolder.existing("data/solos");
    List<String> pairs = Files.readAllLines(folder.resolve("transposed/pairs.csv"));
    for (String pair : pairs.subList(1, pairs.size())) {
      String[] names = pair.split(",");
      Solo written = solo(folder.resolve("transposed").resolve(names[0]));
      Solo concert = solo(folder.resolve("xml").resolve(names[1]));

      assertThat(notes(written)).as(pair).isEqualTo(notes(concert));
      assertThat(chords(written)).as(pair).isEqualTo(chords(concert));
      // A part for another instrument may stand in another clef.
      assertThat(barsWithoutSigns(written)).as(pair).isEqualTo(barsWithoutSigns(concert));
      assertThat(written.tempi()).isEqualTo(concert.tempi());
      assertThat(written.marks()).isEqualTo(concert.marks());
      assertThat(written.notes().get(0).written()).isNotEqualTo(concert.notes().get(0).written());
    }
    assertThat(pairs).hasSize(13);
  }

  @Test
  void filesExportedAgainByANotationProgramHoldTheSameMusic() throws IOException {
    int pairs = 0;
    for (String kind : List.of("solos", "leadsheets")) {
      Path folder = SharedFolder.existing("data/exports/" + kind);
      Path originals =
          SharedFolder.existing(kind.equals("solos") ? "data/solos/xml" : "data/leadsheets");
      List<String> lines = Files.readAllLines(folder.resolve("pairs.csv"));
      for (String line : lines.subList(1, lines.size())) {
        String[] names = line.split(",");
        Solo exported = solo(folder.resolve(names[1]));
        String name = kind.equals("solos") ? names[0] : names[0].replace(".musicxml", ".mxl");
        Solo original = solo(originals.resolve(name));

        assertThat(notes(exported)).as(line).isEqualTo(notes(original));
        assertThat(chords(exported)).as(line).isEqualTo(chords(original));
        assertThat(barTimes(exported)).as(line).isEqualTo(barTimes(original));
        pairs++;
      }
    }
    assertThat(pairs).isEqualTo(28);
  }

  @Test
  void allLeadSheetsAreReadWithTheirCountsOfNotesAndBars() throws IOException {
    Path folder = SharedFolder.existing("data/leadsheets");
    List<String> lines = Files.readAllLines(folder.resolve("leadsheets.csv"));
    List<String> different = new ArrayList<>();
    for (String line : lines.subList(1, lines.size())) {
      List<String> cells = CasesComparisonTest.cells(line);
      ReadResult result =
          SoloReader.read(
              SharedFolder.bytes(folder.resolve(cells.get(0))),
              cells.get(0),
              ReadSettings.defaults());
      assertThat(result.isRead()).as(cells.get(0) + " " + result.reason()).isTrue();
      Solo solo = result.solo();
      int sounding =
          solo.notes().size() + result.notesInStacksLeftOut() + result.notesInOtherVoicesLeftOut();
      String ours =
          solo.bars().size()
              + " bars, "
              + sounding
              + " notes, length "
              + solo.length()
              + ", first bar "
              + solo.bars().get(0).length();
      String theirs =
          cells.get(2)
              + " bars, "
              + cells.get(3)
              + " notes, length "
              + cells.get(11)
              + ", first bar "
              + cells.get(8);
      if (!ours.equals(theirs)) {
        different.add(cells.get(0) + ": " + ours + " against " + theirs);
      }
    }

    assertThat(lines).hasSize(151);
    assertThat(different).isEmpty();
  }

  private static List<String> notes(Solo solo) {
    return solo.notes().stream()
        .map(note -> note.onset() + " " + note.length() + " " + note.midi())
        .toList();
  }

  private static List<String> chords(Solo solo) {
    return solo.chords().stream()
        .map(
            span ->
                span.onset()
                    + "-"
                    + span.end()
                    + " "
                    + span.concert().pitchClasses()
                    + " "
                    + span.concert().root()
                    + "/"
                    + span.concert().bass())
        .toList();
  }

  private static String barTimes(Solo solo) {
    return solo.bars().stream()
        .map(Bar::onset)
        .map(Object::toString)
        .collect(Collectors.joining(" "));
  }
}
