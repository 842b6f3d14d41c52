package phrasecensus.readers.musicxml;

import static org.assertj.core.api.Assertions.assertThat;
import static phrasecensus.readers.musicxml.TinyScores.COMMON_TIME;
import static phrasecensus.readers.musicxml.TinyScores.codes;
import static phrasecensus.readers.musicxml.TinyScores.note;
import static phrasecensus.readers.musicxml.TinyScores.notes;
import static phrasecensus.readers.musicxml.TinyScores.part;
import static phrasecensus.readers.musicxml.TinyScores.rest;
import static phrasecensus.readers.musicxml.TinyScores.result;
import static phrasecensus.readers.musicxml.TinyScores.solo;

import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Solo;
import phrasecensus.readers.ReadResult;

/** Bars, pickups, keys and metres; rules for pickups and split bars are common practice. */
class BarsTest {
  private static String bars(Solo solo) {
    return solo.bars().stream()
        .map(
            bar ->
                bar.number()
                    + ":"
                    + bar.onset()
                    + "+"
                    + bar.length()
                    + "@"
                    + bar.metricalOffset()
                    + (bar.pickup() ? "p" : ""))
        .collect(Collectors.joining(" "));
  }

  private static String measure(String attributes, String contents) {
    return "<measure " + attributes + ">" + contents + "</measure>";
  }

  private static String timed(String time) {
    return "<attributes><divisions>2</divisions><time>" + time + "</time></attributes>";
  }

  @ParameterizedTest(name = "a short first bar with {0}")
  @CsvSource({"number='0' implicit='yes'", "number='1' implicit='yes'", "number='0'"})
  void aMarkedPickupStandsAtTheEndOfItsBar(String attributes) {
    ReadResult result =
        result(
            part(
                measure(attributes, COMMON_TIME + note("G", 4, 1))
                    + measure("number='2'", note("C", 5, 4))));

    assertThat(bars(result.solo())).endsWith(":0+1@3p 2:1+4@0");
    assertThat(result.problems()).isEmpty();
  }

  @Test
  void aPickupThatTheLastBarCompletesNeedsNoMark() {
    ReadResult result =
        result(
            part(
                measure("number='1'", COMMON_TIME + note("G", 4, 1))
                    + measure("number='2'", note("C", 5, 4))
                    + measure("number='3'", note("C", 5, 3))));

    assertThat(bars(result.solo())).isEqualTo("1:0+1@3p 2:1+4@0 3:5+3@0");
    assertThat(result.problems()).isEmpty();
  }

  @Test
  void anUnmarkedShortFirstBarIsReadAsPickupAndReported() {
    ReadResult result =
        result(
            part(
                measure("number='1'", COMMON_TIME + note("G", 4, 1))
                    + measure("number='2'", note("C", 5, 4))));

    assertThat(bars(result.solo())).startsWith("1:0+1@3p");
    assertThat(codes(result)).containsExactly("short-first-bar");
  }

  @Test
  void theSecondHalfOfASplitBarGoesOnWhereTheFirstEnds() {
    Solo solo =
        solo(
            part(
                measure("number='1'", COMMON_TIME + note("G", 4, 4))
                    + measure("number='2'", note("C", 5, 3))
                    + measure("number='X1' implicit='yes'", note("D", 5, 1))
                    + measure("number='3'", note("E", 5, 4))));

    assertThat(bars(solo)).isEqualTo("1:0+4@0 2:4+3@0 X1:7+1@3 3:8+4@0");
  }

  @Test
  void barsWithoutMetreLastAsLongAsTheirContent() {
    Solo solo =
        solo(part(measure("number='1'", note("G", 4, 3)) + measure("number='2'", note("C", 5, 1))));

    assertThat(bars(solo)).isEqualTo("1:0+3@0 2:3+1@0");
    assertThat(solo.bars().get(0).metre()).isEqualTo(Metre.FREE);
  }

  @ParameterizedTest(name = "{0} lasts {1} with beats of {2}")
  @CsvSource({
    "<beats>6</beats><beat-type>8</beat-type>, 3, 3/2, 6/8",
    "<beats>3+2</beats><beat-type>8</beat-type>, 5/2, 1/2, 3+2/8",
    "<beats>3</beats><beat-type>8</beat-type><beats>2</beats><beat-type>4</beat-type>, 7/2, 1/2,"
        + " 3/8+2/4",
    "<beats>2</beats><beat-type>2</beat-type>, 4, 2, 2/2"
  })
  void metresAddUp(String time, String length, String beat, String text) {
    Solo solo = solo(part(measure("number='1'", timed(time))));

    Metre metre = solo.bars().get(0).metre();
    assertThat(metre.barLength()).hasToString(length);
    assertThat(metre.beatLength()).hasToString(beat);
    assertThat(metre.text()).isEqualTo(text);
    assertThat(solo.length()).hasToString(length);
  }

  @Test
  void senzaMisuraHasNoMetre() {
    Solo solo = solo(part(measure("number='1'", timed("<senza-misura/>") + note("C", 4, 6))));

    assertThat(solo.bars().get(0).metre()).isEqualTo(Metre.FREE);
    assertThat(solo.length()).hasToString("3");
  }

  @Test
  void keysChangeInMidBarAndMayLeaveTheCircleOfFifths() {
    Solo solo =
        solo(
            part(
                measure(
                    "number='1'",
                    COMMON_TIME
                        + "<attributes><key><fifths>-3</fifths><mode>minor</mode></key></attributes>"
                        + note("C", 4, 2)
                        + "<attributes><key><key-step>F</key-step><key-alter>1</key-alter></key>"
                        + "</attributes>"
                        + note("C", 4, 2))));

    assertThat(solo.keys())
        .extracting(key -> key.onset() + " " + key.writtenFifths() + " " + key.mode())
        .containsExactly("0 -3 minor", "2 null null");
  }

  @Test
  void aTimeSignatureWithoutBeatTypeIsLeftOutAndReported() {
    ReadResult result =
        result(part(measure("number='1'", timed("<beats>4</beats>") + note("C", 4, 2))));

    assertThat(codes(result)).containsExactly("time-incomplete");
  }

  @Test
  void slashNotationIsNeitherNoteNorRest() {
    Solo solo =
        solo(
            part(
                measure("number='1'", COMMON_TIME + note("C", 4, 4))
                    + measure(
                        "number='2'",
                        "<attributes><measure-style><slash"
                            + " type='start'/></measure-style></attributes>"
                            + note("B", 4, 1, "<notehead>slash</notehead>").repeat(4))
                    + measure(
                        "number='3'",
                        "<attributes><measure-style><slash"
                            + " type='stop'/></measure-style></attributes>"
                            + note("D", 4, 4))));

    assertThat(notes(solo)).isEqualTo("0:60:4 8:62:4");
    assertThat(solo.unknownSpans())
        .extracting(s -> s.onset() + "-" + s.end())
        .containsExactly("4-8");
  }

  @Test
  void anEmptyBarUnderARepeatSignIsUnknownAndReported() {
    ReadResult result =
        result(
            part(
                measure("number='1'", COMMON_TIME + note("C", 4, 4))
                    + measure(
                        "number='2'",
                        "<attributes><measure-style><measure-repeat type='start'>1</measure-repeat>"
                            + "</measure-style></attributes>")
                    + measure(
                        "number='3'",
                        "<attributes><measure-style><measure-repeat type='stop'/></measure-style>"
                            + "</attributes>"
                            + rest(4))));

    assertThat(codes(result)).containsExactly("empty-bar-repeat");
    assertThat(result.solo().unknownSpans())
        .extracting(s -> s.onset() + "-" + s.end())
        .containsExactly("4-8");
  }

  @Test
  void aBarRepeatWithItsNotesIsOnlyAPicture() {
    Solo solo =
        solo(
            part(
                measure("number='1'", COMMON_TIME + note("C", 4, 4))
                    + measure(
                        "number='2'",
                        "<attributes><measure-style><measure-repeat type='start'>1</measure-repeat>"
                            + "</measure-style></attributes>"
                            + note("C", 4, 4))));

    assertThat(notes(solo)).isEqualTo("0:60:4 4:60:4");
    assertThat(solo.unknownSpans()).isEmpty();
  }
}
