package phrasecensus.music.norm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.apache.commons.statistics.descriptive.Quantile.EstimationMethod;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Values of R 4.2.2, {@code quantile(x, p, type = ...)}, for x10 = 1.5, 2, 2, 2.5, 3, 3.5, 4, 4, 6,
 * 8 and x5 = 2, 3, 5, 7, 11; types as in Hyndman and Fan 1996.
 */
class QuantilesTest {
  private static final double[] PROBABILITIES = {.05, .10, .25, .50, .75, .90, .95};
  static final Sample X10 = Sample.of(8, 1.5, 2, 2, 2.5, 3, 3.5, 4, 4, 6);
  private static final Sample X5 = Sample.of(2, 3, 5, 7, 11);

  @ParameterizedTest(name = "R: quantile(x10, c(.05,.10,.25,.50,.75,.90,.95), type = {0})")
  @CsvSource({
    "1, 1.5, 1.5, 2, 3, 4, 6, 8",
    "2, 1.5, 1.75, 2, 3.25, 4, 7, 8",
    "3, 1.5, 1.5, 2, 3, 4, 6, 8",
    "4, 1.5, 1.5, 2, 3, 4, 6, 7",
    "5, 1.5, 1.75, 2, 3.25, 4, 7, 8",
    "6, 1.5, 1.55, 2, 3.25, 4.5, 7.8, 8",
    "7, 1.725, 1.95, 2.125, 3.25, 4, 6.2, 7.1",
    "8, 1.5, 1.683333, 2, 3.25, 4.166667, 7.266667, 8",
    "9, 1.5, 1.7, 2, 3.25, 4.125, 7.2, 8"
  })
  void allNineTypesAgreeWithR(
      int type,
      double p05,
      double p10,
      double p25,
      double p50,
      double p75,
      double p90,
      double p95) {
    double[] expected = {p05, p10, p25, p50, p75, p90, p95};

    for (int i = 0; i < expected.length; i++) {
      assertThat(Quantiles.of(X10, PROBABILITIES[i], EstimationMethod.valueOf("HF" + type)))
          .as("probability %s", PROBABILITIES[i])
          .isCloseTo(expected[i], within(1e-6));
    }
  }

  @ParameterizedTest(name = "R: quantile(x5, ..., type = {0})")
  @CsvSource({"7, 2.2, 2.4, 3, 5, 7, 9.4, 10.2", "8, 2, 2, 2.666667, 5, 8.333333, 11, 11"})
  void fiveValuesAgreeWithR(
      int type,
      double p05,
      double p10,
      double p25,
      double p50,
      double p75,
      double p90,
      double p95) {
    double[] expected = {p05, p10, p25, p50, p75, p90, p95};

    for (int i = 0; i < expected.length; i++) {
      assertThat(Quantiles.of(X5, PROBABILITIES[i], EstimationMethod.valueOf("HF" + type)))
          .isCloseTo(expected[i], within(1e-6));
    }
  }

  /**
   * Spark SQL documentation: percentile_cont and percentile_disc of (0, 1, 2, 10) at .5, .4, .1.
   */
  @ParameterizedTest(name = "percentile_{0} of 0, 1, 2, 10 as the Spark SQL documentation gives it")
  @CsvSource({"HF7, 1.5, 1.2, 0.3", "HF1, 1, 1, 0"})
  void typesSevenAndOneAreThoseOfSparkSql(EstimationMethod type, double p5, double p4, double p1) {
    Sample sample = Sample.of(0, 1, 2, 10);

    assertThat(Quantiles.of(sample, .5, type)).isCloseTo(p5, within(1e-12));
    assertThat(Quantiles.of(sample, .4, type)).isCloseTo(p4, within(1e-12));
    assertThat(Quantiles.of(sample, .1, type)).isCloseTo(p1, within(1e-12));
  }

  @Test
  void typeEightIsTheDefault() {
    assertThat(Quantiles.of(X10, .1)).isCloseTo(1.683333, within(1e-6));
  }

  @Test
  void oneValueIsEveryQuantile() {
    assertThat(Quantiles.of(Sample.of(7), .05)).isEqualTo(7);
    assertThat(Quantiles.of(Sample.of(7), .95)).isEqualTo(7);
  }

  /** R: IQR(x10, type = 8); mad(x10, constant = 1). */
  @Test
  void robustSpreadAgreesWithR() {
    assertThat(Quantiles.interquartileRange(X10)).isCloseTo(2.1666667, within(1e-7));
    assertThat(X10.medianAbsoluteDeviation()).isEqualTo(1);
    assertThat(X10.median()).isEqualTo(3.25);
    assertThat(X10.medianAbsoluteDeviation() * Quantiles.NORMAL_MEDIAN_ABSOLUTE_DEVIATION)
        .isCloseTo(1.4826, within(1e-7));
  }

  @Test
  void refusesAnEmptySampleAndAnImpossibleProbability() {
    assertThatThrownBy(() -> Quantiles.of(Sample.of(), .5))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Cannot give a quantile: the sample is empty");
    assertThatThrownBy(() -> Quantiles.of(X10, Double.NaN))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid probability of a quantile: NaN");
  }
}
