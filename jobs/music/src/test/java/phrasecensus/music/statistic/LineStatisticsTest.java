package phrasecensus.music.statistic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.analysis.SoloAnalysis;

/** Invented lines, values by definition or worked by hand from the catalogue. */
class LineStatisticsTest {
  private static SoloAnalysis line(String pitches, Integer... phraseStarts) {
    StringBuilder notes = new StringBuilder();
    int onset = 0;
    for (String pitch : pitches.split(" ")) {
      notes.append(onset++).append(':').append(pitch).append(":1 ");
    }
    return Heard.inC(notes.toString(), "", phraseStarts);
  }

  @ParameterizedTest(name = "{0} is {1}")
  @CsvSource({
    "C4 E4 G4, ascending",
    "G4 E4 C4, descending",
    "C4 G4 D4, convex",
    "G4 C4 F4, concave",
    "C4 E4 E4, other",
    "C4 C4 C4, other"
  })
  void contourIsThatOfHuron(String pitches, String shape) {
    assertThat(Heard.solo(line(pitches), "contour_" + shape)).isEqualTo(1);
  }

  @Test
  void contourCountsPhrasesOfThreeNotesAlone() {
    SoloAnalysis heard = line("C4 D4 C4 E4 G4", 2);

    assertThat(Heard.find(SoloStatistics.of(heard), "contour_ascending"))
        .isEqualTo(new StatisticValue("contour_ascending", 1.0, 1));
  }

  @ParameterizedTest(name = "{0} to {1} is one of {2}")
  @CsvSource({
    "C4, C4, repetition_share",
    "C4, C#4, semitone_share",
    "C4, C#4, step_share",
    "D4, C4, step_share",
    "C4, D#4, skip_share",
    "E4, C4, skip_share",
    "C4, F4, leap_share",
    "C5, C4, leap_share"
  })
  void intervalsAreSortedBySize(String from, String to, String key) {
    assertThat(Heard.solo(line(from + " " + to), key)).isEqualTo(1);
  }

  @Test
  void intervalsAcrossPhrasesAreNotCounted() {
    SoloAnalysis heard = line("C4 D4 C6 B5", 2);

    assertThat(Heard.solo(heard, "mean_interval")).isEqualTo(1.5);
    assertThat(Heard.solo(heard, "phrase_range")).isEqualTo(1.5);
    assertThat(Heard.solo(heard, "solo_range")).isEqualTo(24);
  }

  /** C D E F G C: 85.27 in the manual of music21. */
  @Test
  void variabilityOfIntervalsHasThePublishedValue() {
    assertThat(Heard.solo(line("C4 D4 E4 F4 G4 C4"), "interval_variability"))
        .isCloseTo(85.266688, within(1e-6));
  }

  @Test
  void repetitionIsPassedOverInDirection() {
    SoloAnalysis heard = line("C4 D4 D4 E4 E4 D4");

    assertThat(Heard.solo(heard, "direction_change_share")).isEqualTo(.5);
    assertThat(Heard.solo(heard, "ascending_share")).isCloseTo(2.0 / 3, within(1e-12));
  }

  @Test
  void repeatedNotesHaveNoDirection() {
    SoloAnalysis heard = line("C4 C4 C4");

    assertThat(Heard.solo(heard, "direction_change_share")).isNull();
    assertThat(Heard.solo(heard, "ascending_share")).isNull();
    assertThat(Heard.solo(heard, "interval_variability")).isNull();
    assertThat(Heard.solo(heard, "repetition_share")).isEqualTo(1);
  }

  @ParameterizedTest(name = "the highest note of {0} stands at {1}")
  @CsvSource({"C4 D4 E4, 1", "E4 D4 C4, 0", "C4 E4 D4 E4 C4, .25"})
  void firstOfTheHighestNotesIsThePeak(String pitches, double expected) {
    assertThat(Heard.solo(line(pitches), "peak_place")).isEqualTo(expected);
  }

  @Test
  void twelveEqualPitchClassesHaveThePublishedEntropy() {
    SoloAnalysis heard = line("C4 C#4 D4 D#4 E4 F4 F#4 G4 G#4 A4 A#4 B4");

    assertThat(Heard.solo(heard, "pitch_class_entropy")).isCloseTo(3.5849625, within(1e-7));
    assertThat(Heard.solo(heard, "interval_entropy")).isZero();
  }

  /** The figure C D E C G comes again a tone higher: two of four windows, worked by hand. */
  @Test
  void transposedFigureRecurs() {
    SoloAnalysis heard = line("C4 D4 E4 C4 G4 D4 E4 F#4 D4 A4 C4 B3 A3 C4 B3", 5, 10);

    assertThat(Heard.solo(heard, "pattern_recurrence")).isCloseTo(2.0 / 3, within(1e-12));
    assertThat(Heard.solo(heard, "pattern_recurrence_varied")).isCloseTo(2.0 / 3, within(1e-12));
  }

  @Test
  void chromaticRunRecursButNotAmongVariedPatterns() {
    SoloAnalysis heard = line("C4 C#4 D4 D#4 E4 F4");

    assertThat(Heard.solo(heard, "pattern_recurrence")).isEqualTo(1);
    assertThat(Heard.solo(heard, "pattern_recurrence_varied")).isNull();
  }
}
