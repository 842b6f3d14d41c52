package phrasecensus.music.norm;

import org.apache.commons.statistics.inference.KolmogorovSmirnovTest;

/**
 * The two-sided Kolmogorov-Smirnov test of two independent samples: the greatest distance between
 * their distribution functions. Exact for small samples, else asymptotic.
 *
 * @param d from 0 to 1
 * @param pValue null when a sample has fewer than five values: too few for a test
 */
public record KolmogorovSmirnov(double d, Double pValue) {
  /**
   * @throws IllegalArgumentException if a sample is empty
   */
  public static KolmogorovSmirnov of(Sample x, Sample y) {
    MannWhitney.requireValues(x, y);
    KolmogorovSmirnovTest test = KolmogorovSmirnovTest.withDefaults();
    if (Math.min(x.size(), y.size()) < MannWhitney.LEAST_FOR_P_VALUE) {
      return new KolmogorovSmirnov(greatestDistance(x, y), null);
    }
    KolmogorovSmirnovTest.TwoResult result = test.test(x.values(), y.values());
    return new KolmogorovSmirnov(result.getStatistic(), result.getPValue());
  }

  private static double greatestDistance(Sample x, Sample y) {
    double greatest = 0;
    for (Sample sample : new Sample[] {x, y}) {
      for (double value : sample.values()) {
        double distance =
            (double) x.countAtMost(value) / x.size() - (double) y.countAtMost(value) / y.size();
        greatest = Math.max(greatest, Math.abs(distance));
      }
    }
    return greatest;
  }
}
