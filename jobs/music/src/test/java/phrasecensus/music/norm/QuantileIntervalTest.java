package phrasecensus.music.norm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.stream.IntStream;
import org.apache.commons.statistics.distribution.BinomialDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class QuantileIntervalTest {
  /** All rank pairs by pbinom(u-1,n,p) - pbinom(l-1,n,p), fewest ranks between. */
  @ParameterizedTest(name = "R 4.2.2: n = {0}, p = {1}: ranks {2}, {3}, cover {4}")
  @CsvSource({
    "6, .5, 1, 6, .9688",
    "10, .5, 2, 9, .9785",
    "20, .5, 6, 15, .9586",
    "20, .25, 2, 10, .9618",
    "30, .5, 10, 21, .9572",
    "30, .25, 3, 13, .9678",
    "30, .1, 1, 9, .9556",
    "59, .5, 22, 38, .9637",
    "59, .25, 9, 22, .9507",
    "59, .1, 2, 11, .9543",
    "59, .05, 1, 10, .9509",
    "100, .5, 40, 60, .9540",
    "100, .25, 17, 34, .9513",
    "100, .1, 5, 17, .9557",
    "100, .05, 1, 10, .9659"
  })
  void ranksAndCoverageAgreeWithR(int n, double p, int lower, int upper, double coverage) {
    QuantileInterval interval = QuantileInterval.of(ranks(n), p).orElseThrow();

    assertThat(interval.lowerRank()).isEqualTo(lower);
    assertThat(interval.upperRank()).isEqualTo(upper);
    assertThat(interval.coverage()).isCloseTo(coverage, within(5e-5));
    assertThat(interval.lower()).isEqualTo(lower);
    assertThat(interval.upper()).isEqualTo(upper);
  }

  @ParameterizedTest(name = "R: least n with 1 - p^n - (1-p)^n >= .95 for p = {0} is {1}")
  @CsvSource({".5, 6", ".25, 11", ".10, 29", ".05, 59", ".025, 119", ".95, 59"})
  void leastSizeAgreesWithR(double p, int n) {
    assertThat(QuantileInterval.leastSize(p, .95)).isEqualTo(n);
    assertThat(QuantileInterval.of(ranks(n), p)).isPresent();
    assertThat(QuantileInterval.of(ranks(n - 1), p)).isEmpty();
  }

  @Test
  void isTheNarrowestOfAllPairs() {
    for (int n = 2; n <= 80; n++) {
      for (double p : new double[] {.05, .1, .25, .5, .75, .9, .95}) {
        BinomialDistribution below = BinomialDistribution.of(n, p);
        int narrowest = Integer.MAX_VALUE;
        for (int lower = 1; lower < n; lower++) {
          for (int upper = lower + 1; upper <= n; upper++) {
            double coverage =
                below.cumulativeProbability(upper - 1) - below.cumulativeProbability(lower - 1);
            if (coverage >= .95) {
              narrowest = Math.min(narrowest, upper - lower);
            }
          }
        }

        int width =
            QuantileInterval.of(ranks(n), p)
                .map(interval -> interval.upperRank() - interval.lowerRank())
                .orElse(Integer.MAX_VALUE);

        assertThat(width).as("n = %s, p = %s", n, p).isEqualTo(narrowest);
      }
    }
  }

  @Test
  void hugeSamplesHaveNarrowIntervals() {
    QuantileInterval interval = QuantileInterval.of(ranks(1_000_000), .5).orElseThrow();

    assertThat(interval.coverage()).isBetween(.95, .951);
    assertThat(interval.upperRank() - interval.lowerRank()).isBetween(1950, 1970);
  }

  /** Four times the variance asks for twice the deviate: 1 - 2 P(Z > 3.92) instead of .95. */
  @Test
  void aDesignEffectWidensTheInterval() {
    QuantileInterval independent = QuantileInterval.of(ranks(100), .5).orElseThrow();
    QuantileInterval clustered = QuantileInterval.of(ranks(100), .5, .95, 4).orElseThrow();
    QuantileInterval confident = QuantileInterval.of(ranks(100), .5, .9999114).orElseThrow();

    assertThat(clustered.upperRank() - clustered.lowerRank())
        .isEqualTo(confident.upperRank() - confident.lowerRank())
        .isGreaterThan(independent.upperRank() - independent.lowerRank());
    assertThat(clustered.coverage()).isBetween(.95, .97);
  }

  @Test
  void aDesignEffectCanLeaveNoInterval() {
    assertThat(QuantileInterval.of(ranks(12), .25, .95, 1)).isPresent();
    assertThat(QuantileInterval.of(ranks(12), .25, .95, 2)).isEmpty();
  }

  private static Sample ranks(int n) {
    return Sample.of(IntStream.rangeClosed(1, n).asDoubleStream().toArray());
  }
}
