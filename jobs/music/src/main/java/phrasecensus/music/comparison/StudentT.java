package phrasecensus.music.comparison;

import org.apache.commons.statistics.distribution.TDistribution;

/**
 * Student's t distribution of a whole number of degrees of freedom.
 *
 * <p>{@link #below} goes by the finite series of M. Abramowitz and I. A. Stegun (eds.), Handbook of
 * Mathematical Functions, 1964, 26.7.3 and 26.7.4, where that is short: it is many times faster
 * than the incomplete beta function, and exact to some 1e-16 of a probability, which is enough to
 * find where an interval ends, if not to tell one tiny tail from another.
 */
final class StudentT {
  private static final int LONGEST_SERIES = 200;

  private final int freedom;
  private final TDistribution distribution;
  private final double atNought;

  StudentT(int freedom) {
    this.freedom = freedom;
    this.distribution = TDistribution.of(freedom);
    this.atNought = distribution.density(0);
  }

  /** Probability of at most t, with a small relative error in either tail. */
  double exactBelow(double t) {
    return distribution.cumulativeProbability(t);
  }

  /** The value that is exceeded with that probability. */
  double exceededWith(double probability) {
    return distribution.inverseSurvivalProbability(probability);
  }

  /** Density at t. */
  double density(double t) {
    return atNought * Math.exp(-(freedom + 1) / 2.0 * Math.log1p(t * t / freedom));
  }

  /** Probability of at most t, with a small absolute error. */
  double below(double t) {
    if (freedom > LONGEST_SERIES) {
      return exactBelow(t);
    }
    double square = freedom / (freedom + t * t);
    double sine = t / Math.sqrt(freedom + t * t);
    double term;
    double sum;
    if (freedom % 2 == 0) {
      term = 1;
      sum = 1;
      for (int k = 2; k < freedom; k += 2) {
        term *= square * (k - 1) / k;
        sum += term;
      }
      return (1 + sine * sum) / 2;
    }
    term = Math.sqrt(square);
    sum = freedom == 1 ? 0 : term;
    for (int k = 3; k < freedom; k += 2) {
      term *= square * (k - 1) / k;
      sum += term;
    }
    return 0.5 + (Math.atan2(t, Math.sqrt(freedom)) + sine * sum) / Math.PI;
  }
}
