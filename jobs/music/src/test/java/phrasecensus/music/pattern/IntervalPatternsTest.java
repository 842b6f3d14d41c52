package phrasecensus.music.pattern;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.statistic.Heard;
import phrasecensus.music.time.Fraction;

/** Invented figures, counted by hand. */
class IntervalPatternsTest {
  /** A figure, the same a fourth higher at twice the pace, and again in another rhythm. */
  private static final SoloAnalysis THREE_TIMES =
      Heard.inC(
          """
          0:C4:1 1:D4:1 2:E4:1/2 5/2:C4:1/2
          4:F4:1/2 9/2:G4:1/2 5:A4:1/4 21/4:F4:1/4
          8:C4:1/2 17/2:D4:1 19/2:E4:1 21/2:C4:1
          """,
          "",
          4,
          8);

  @Test
  void transposedFigureIsFoundAtItsPlaces() {
    IntervalPatterns patterns = IntervalPatterns.byPitch(THREE_TIMES, 3);

    assertThat(patterns.places())
        .containsExactly(
            Map.entry(
                new IntervalPattern(List.of(2, 2, -4), List.of()),
                List.of(
                    new IntervalPatterns.Place(0, 0),
                    new IntervalPatterns.Place(1, 0),
                    new IntervalPatterns.Place(2, 0))));
    assertThat(patterns.windows()).isEqualTo(3);
    assertThat(patterns.recurringWindows()).isEqualTo(3);
  }

  @Test
  void withRhythmTheRatiosOfGapsMustAgreeToo() {
    IntervalPatterns patterns = IntervalPatterns.byPitchAndRhythm(THREE_TIMES, 3);

    assertThat(patterns.places().keySet())
        .extracting(IntervalPattern::text)
        .containsExactly("+2 +2 -4 | 1 1/2", "+2 +2 -4 | 2 1");
    assertThat(patterns.recurringWindows()).isEqualTo(2);
  }

  @ParameterizedTest(name = "ten notes have {1} windows of {0} intervals")
  @CsvSource({"1, 9", "3, 7", "4, 6", "8, 2", "9, 1", "10, 0"})
  void windowsOverlap(int length, int windows) {
    int[] run = {2, 2, 1, 2, 5, -1, -2, -2, -3};

    assertThat(IntervalPatterns.byPitch(List.of(run), length).windows()).isEqualTo(windows);
  }

  @Test
  void windowsDoNotCrossPhrases() {
    IntervalPatterns patterns =
        IntervalPatterns.byPitch(List.of(new int[] {2, 2}, new int[] {1, 2}), 3);

    assertThat(patterns.windows()).isZero();
  }

  @ParameterizedTest(name = "{0}: run or repetition {1}")
  @CsvSource({"1 1 1, true", "-1 -1 -1, true", "0 0 0, true", "1 1 -1, false", "2 2 2, false"})
  void chromaticRunsAndRepeatedNotesAreTold(String intervals, boolean expected) {
    List<Integer> figure = Arrays.stream(intervals.split(" ")).map(Integer::valueOf).toList();

    assertThat(new IntervalPattern(figure, List.of()).isRunOrRepetition()).isEqualTo(expected);
  }

  @Test
  void runsAndRepetitionsCanBeLeftOut() {
    IntervalPatterns patterns =
        IntervalPatterns.byPitch(List.of(new int[] {1, 1, 1, 1, 2}), 3).withoutRunsAndRepetitions();

    assertThat(patterns.windows()).isEqualTo(1);
    assertThat(patterns.recurringWindows()).isZero();
  }

  @Test
  void lengthBelowOneIsRefused() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> IntervalPatterns.byPitch(List.of(), 0))
        .withMessage("Invalid pattern length: 0");
  }

  @Test
  void ratiosMustFitTheIntervals() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new IntervalPattern(List.of(1, 2), List.of(Fraction.ONE, Fraction.ONE)))
        .withMessage("Invalid interval pattern: [1, 2] with gap ratios [1, 1]");
  }
}
