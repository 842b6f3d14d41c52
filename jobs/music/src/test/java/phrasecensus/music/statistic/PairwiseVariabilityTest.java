package phrasecensus.music.statistic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Values by R 4.2.2 from the formula of Low, Grabe and Nolan (2000). Those of the first line and of
 * quarter and eighth in alternation also stand in manuals of general-purpose music software.
 */
class PairwiseVariabilityTest {
  @ParameterizedTest(name = "{0} has {1}")
  @CsvSource({
    "1 2 3, 53.333333",
    "1 .5 1 .5 1, 66.666667",
    "3 3 6, 33.333333",
    "4 6 8, 34.285714",
    "1.5 .5 1 1 2, 58.333333",
    "2 1 2 1, 66.666667",
    "3 1 3 1, 100",
    "1 1 1 1, 0"
  })
  void lengthsHaveThePublishedValue(String lengths, double expected) {
    assertThat(PairwiseVariability.normalised(numbers(lengths))).isCloseTo(expected, within(1e-6));
  }

  @Test
  void lengthsOfDifferentRunsAreNotPaired() {
    double apart = PairwiseVariability.normalised(numbers("1 1 1"), numbers("4 4"));

    assertThat(apart).isZero();
  }

  @Test
  void oneLengthHasNoValue() {
    assertThat(PairwiseVariability.normalised(numbers("1"))).isNaN();
    assertThat(PairwiseVariability.normalised()).isNaN();
  }

  private static double[] numbers(String text) {
    return Arrays.stream(text.split(" ")).mapToDouble(Double::parseDouble).toArray();
  }
}
