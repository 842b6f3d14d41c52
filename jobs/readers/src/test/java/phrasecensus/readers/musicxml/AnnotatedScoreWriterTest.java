package phrasecensus.readers.musicxml;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Mark;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.StaffSigns;
import phrasecensus.readers.ReadResult;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.SharedFolder;
import phrasecensus.readers.SoloReader;
import phrasecensus.readers.musicxml.AnnotatedScoreWriter.Annotations;
import phrasecensus.readers.musicxml.AnnotatedScoreWriter.PhraseSpan;

class AnnotatedScoreWriterTest {
  private static Solo read(byte[] document) {
    ReadResult result = SoloReader.read(document, "copy.musicxml", ReadSettings.defaults());
    assertThat(result.isRead()).as(result.reason()).isTrue();
    return result.solo();
  }

  private static List<String> notes(Solo solo) {
    return solo.notes().stream()
        .map(
            note ->
                note.onset()
                    + " "
                    + note.length()
                    + " "
                    + note.concert()
                    + " "
                    + note.written()
                    + " bar "
                    + note.barIndex()
                    + " graces "
                    + note.graceBefore()
                    + (note.uncertain() ? " uncertain" : "")
                    + note.articulations())
        .toList();
  }

  private static void assertSameMusic(Solo copy, Solo original, String name) {
    assertThat(notes(copy)).as(name).isEqualTo(notes(original));
    // A copy has a clef always, and a stray end of an ending has no number to be written with.
    boolean clefs = original.bars().stream().noneMatch(bar -> bar.signs().clef().isEmpty());
    assertThat(copy.bars().stream().map(bar -> comparable(bar, clefs)).toList())
        .as(name)
        .isEqualTo(original.bars().stream().map(bar -> comparable(bar, clefs)).toList());
    assertThat(copy.chords().stream().map(ChordSpan::concert).toList())
        .as(name)
        .isEqualTo(original.chords().stream().map(ChordSpan::concert).toList());
    assertThat(copy.chords().stream().map(c -> c.onset() + "-" + c.end()).toList())
        .as(name)
        .isEqualTo(original.chords().stream().map(c -> c.onset() + "-" + c.end()).toList());
    // A signature that is not on the circle of fifths cannot be written from its null fifths.
    assertThat(copy.keys())
        .as(name)
        .isEqualTo(original.keys().stream().filter(key -> key.concertFifths() != null).toList());
    assertThat(copy.tempi()).as(name).isEqualTo(original.tempi());
    assertThat(copy.graceNotes()).as(name).isEqualTo(original.graceNotes());
    assertThat(copy.unknownSpans()).as(name).isEqualTo(original.unknownSpans());
    assertThat(copy.unpitchedOnsets()).as(name).isEqualTo(original.unpitchedOnsets());
    assertThat(copy.marks()).as(name).isEqualTo(original.marks());
    assertThat(copy.description().title()).isEqualTo(original.description().title());
    assertThat(copy.description().creators()).isEqualTo(original.description().creators());
  }

  private static Bar comparable(Bar bar, boolean clefs) {
    StaffSigns signs = bar.signs();
    return bar.with(
        new StaffSigns(
            clefs ? signs.clef() : "",
            signs.startsRepeat(),
            signs.endsRepeat(),
            signs.ending(),
            false));
  }

  private static void assertCopiesKeepTheMusic(List<Path> files) {
    for (Path file : files) {
      ReadResult original =
          SoloReader.read(
              SharedFolder.bytes(file), file.getFileName().toString(), ReadSettings.defaults());
      if (original.isRead()) {
        byte[] document = AnnotatedScoreWriter.document(original.solo(), Annotations.none());
        assertSameMusic(read(document), original.solo(), file.getFileName().toString());
      }
    }
  }

  @Test
  void copiesOfTheSampleCorpusKeepTheMusic() throws Exception {
    Path corpus = Path.of(System.getProperty("project.root"), "sample-corpus", "corpus");
    List<Path> files = Files.exists(corpus) ? SharedFolder.files(corpus) : new ArrayList<>();
    org.junit.jupiter.api.Assumptions.assumeFalse(files.isEmpty(), "Skipped: no sample corpus");

    assertCopiesKeepTheMusic(
        files.stream().filter(f -> f.toString().matches(".*(xml|mxl)")).toList());
  }

  @Test
  void copiesOfOutsideSolosKeepTheMusic() {
    assertCopiesKeepTheMusic(
        SharedFolder.files(SharedFolder.existing("data/solos/xml")).subList(0, 60));
  }

  @Test
  void copiesOfTransposedSolosKeepWrittenAndSoundingPitch() {
    assertCopiesKeepTheMusic(
        SharedFolder.files(SharedFolder.existing("data/solos/transposed")).stream()
            .filter(f -> f.toString().endsWith("xml"))
            .toList());
  }

  @Test
  void copiesOfTheCasesKeepTheMusic() {
    assertCopiesKeepTheMusic(
        SharedFolder.files(SharedFolder.existing("cases")).stream()
            .filter(f -> f.toString().matches(".*(xml|mxl)"))
            .toList());
  }

  @Test
  void copiesOfTheSuiteKeepTheMusic() {
    assertCopiesKeepTheMusic(
        SharedFolder.files(SharedFolder.existing("reference/musicxml-suite/input/xmlFiles")));
  }

  @Test
  void copiesOfLeadSheetsKeepTheMusic() {
    assertCopiesKeepTheMusic(
        SharedFolder.files(SharedFolder.existing("data/leadsheets")).stream()
            .filter(f -> f.toString().endsWith("mxl"))
            .toList());
  }

  @Test
  void phrasesStandUnderBracketsAndLabelsBelowNotes() {
    Solo solo =
        read(
            TinyScores.part(
                    "<measure number='1'>"
                        + TinyScores.COMMON_TIME
                        + TinyScores.note("C", 4, 1)
                        + TinyScores.note("D", 4, 1)
                        + TinyScores.rest(1)
                        + TinyScores.note("E", 4, 1)
                        + "</measure>")
                .getBytes(StandardCharsets.UTF_8));

    byte[] document =
        AnnotatedScoreWriter.document(
            solo,
            new Annotations(
                List.of(new PhraseSpan(0, 1), new PhraseSpan(2, 2)),
                Map.of(1, "9", 2, "b3"),
                Set.of(2)));

    String text = new String(document, StandardCharsets.UTF_8);
    assertThat(text).contains("<text>9</text>", "<text>b3</text>", "<text>*</text>");
    assertThat(text).contains("<note color=\"#B3261E\">");
    assertThat(read(document).marks())
        .extracting(mark -> mark.kind() + " " + mark.onset() + " " + mark.end())
        .containsExactly(Mark.Kind.BRACKET + " 0 1", Mark.Kind.BRACKET + " 3 3");
    assertThat(notes(read(document))).isEqualTo(notes(solo));
  }

  @Test
  void theSameSoloGivesTheSameBytes() {
    Solo solo =
        read(
            TinyScores.part(
                    "<measure number='1'>"
                        + TinyScores.COMMON_TIME
                        + TinyScores.note("C", 4, 4)
                        + "</measure>")
                .getBytes(StandardCharsets.UTF_8));

    assertThat(AnnotatedScoreWriter.document(solo, Annotations.none()))
        .isEqualTo(AnnotatedScoreWriter.document(solo, Annotations.none()));
  }

  @Test
  void everyNoteValueIsWrittenExactly() {
    for (long denominator = 1; denominator <= 64; denominator++) {
      for (long numerator = 1; numerator <= 4 * denominator; numerator++) {
        var length = phrasecensus.music.time.Fraction.of(numerator, denominator);
        var sum = phrasecensus.music.time.Fraction.ZERO;
        for (NoteValues.Value value : NoteValues.of(length)) {
          sum = sum.plus(value.length());
        }
        assertThat(sum).isEqualTo(length);
      }
    }
  }

  @Test
  void indexesOfNotesAreKept() {
    Solo solo =
        read(
            TinyScores.part(
                    "<measure number='1'>"
                        + TinyScores.COMMON_TIME
                        + TinyScores.note("C", 4, 3)
                        + TinyScores.note("D", 4, 1)
                        + "</measure>")
                .getBytes(StandardCharsets.UTF_8));

    assertThat(solo.notes().stream().map(Note::index).toList())
        .isEqualTo(IntStream.range(0, 2).boxed().toList());
  }
}
