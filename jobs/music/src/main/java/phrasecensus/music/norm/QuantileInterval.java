package phrasecensus.music.norm;

import java.util.Optional;
import org.apache.commons.statistics.distribution.BinomialDistribution;
import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * A distribution-free interval for a quantile: two of the values themselves, chosen by rank.
 *
 * <p>The number of values below the true quantile is binomial, so the values of ranks l and u hold
 * it with probability P(l &lt;= B &lt; u), B ~ binomial(n, p), whatever the distribution (exactly
 * when it is continuous, at least that when it has ties). Of all pairs that reach the confidence
 * the one with the fewest ranks between is taken, then the one with the greater coverage, then the
 * lower. Assumes independent values: solos of one player are not quite that, see {@link
 * ClusterBootstrap}. Source: common statistical practice; textbook form in W. J. Conover,
 * "Practical Nonparametric Statistics", chapter on the binomial test (from memory).
 *
 * @param probability which quantile, in (0, 1)
 * @param lowerRank 1 for the least value
 * @param upperRank at most the number of values
 * @param lower value at {@code lowerRank}
 * @param upper value at {@code upperRank}
 * @param coverage probability that the interval holds the true quantile; at least the confidence
 *     asked for
 */
public record QuantileInterval(
    double probability, int lowerRank, int upperRank, double lower, double upper, double coverage) {
  /** Coverages closer than this are equal: they differ by rounding alone. */
  private static final double COVERAGE_ROUNDING = 1e-12;

  /** Ranks that can hold the quantile with less probability than this are not looked at. */
  private static final double NEGLIGIBLE = 1e-15;

  /** The 95 % interval, empty when the sample is too small for one. */
  public static Optional<QuantileInterval> of(Sample sample, double probability) {
    return of(sample, probability, Interval.USUAL_CONFIDENCE);
  }

  /**
   * The interval of the given confidence, empty when the sample is too small for one: see {@link
   * #leastSize}. Cost grows with the square root of the sample size.
   *
   * @throws IllegalArgumentException if a probability is not in (0, 1)
   */
  public static Optional<QuantileInterval> of(
      Sample sample, double probability, double confidence) {
    return of(sample, probability, confidence, 1);
  }

  /**
   * The interval for values that come in clusters, such as solos of players: as for independent
   * values, but asking for so much more confidence that the normal deviate grows by the root of the
   * design effect.
   *
   * @param designEffect at least 1, see {@link DesignEffect}
   * @throws IllegalArgumentException if a probability is not in (0, 1) or the design effect below 1
   */
  public static Optional<QuantileInterval> of(
      Sample sample, double probability, double clusteredConfidence, double designEffect) {
    Interval.requireConfidence(clusteredConfidence);
    if (!(designEffect >= 1)) {
      throw new IllegalArgumentException("Invalid design effect: " + designEffect);
    }
    double confidence = scaled(clusteredConfidence, Math.sqrt(designEffect));
    requireProbability(probability);
    int n = sample.size();
    if (n < 2 || bestCoverage(n, probability) < confidence) {
      return Optional.empty();
    }
    BinomialDistribution below = BinomialDistribution.of(n, probability);
    int first = below.inverseCumulativeProbability(NEGLIGIBLE);
    int last = Math.min(n, below.inverseSurvivalProbability(NEGLIGIBLE) + 1);
    double[] cumulative = new double[last - first + 2]; // at i: P(B <= first - 1 + i)
    cumulative[0] = first == 0 ? 0 : below.cumulativeProbability(first - 1);
    for (int i = 1; i < cumulative.length; i++) {
      cumulative[i] = cumulative[i - 1] + below.probability(first - 1 + i);
    }
    int bestLower = 0;
    int bestUpper = 0;
    double best = 0;
    int upper = Math.max(first, 1);
    for (int lower = Math.max(first, 1); lower <= last; lower++) {
      upper = Math.max(upper, lower + 1);
      while (upper <= last && coverage(cumulative, first, lower, upper) < confidence) {
        upper++;
      }
      if (upper > last) {
        break;
      }
      double reached = coverage(cumulative, first, lower, upper);
      int width = upper - lower;
      int bestWidth = bestUpper - bestLower;
      if (bestUpper == 0
          || width < bestWidth
          || (width == bestWidth && reached > best + COVERAGE_ROUNDING)) {
        bestLower = lower;
        bestUpper = upper;
        best = reached;
      }
    }
    return bestUpper == 0
        ? Optional.empty()
        : Optional.of(
            new QuantileInterval(
                probability,
                bestLower,
                bestUpper,
                sample.at(bestLower - 1),
                sample.at(bestUpper - 1),
                scaled(Math.min(1, best), 1 / Math.sqrt(designEffect))));
  }

  /**
   * The least number of values for which an interval exists: the least n with 1 - p^n - (1-p)^n at
   * least the confidence. At 95 %: 6 for the median, 11 quartiles, 29 deciles, 59 for 5 and 95 %.
   *
   * @throws IllegalArgumentException if a probability is not in (0, 1)
   */
  public static int leastSize(double probability, double confidence) {
    requireProbability(probability);
    Interval.requireConfidence(confidence);
    int n = 2;
    while (bestCoverage(n, probability) < confidence) {
      n++;
    }
    return n;
  }

  /** The confidence whose normal deviate is {@code factor} times as large. */
  private static double scaled(double confidence, double factor) {
    if (factor == 1) {
      return confidence;
    }
    NormalDistribution normal = NormalDistribution.of(0, 1);
    return 1
        - 2
            * normal.survivalProbability(
                factor * normal.inverseSurvivalProbability((1 - confidence) / 2));
  }

  /** P(l &lt;= B &lt; u). */
  private static double coverage(double[] cumulative, int first, int lower, int upper) {
    return cumulative[upper - first] - cumulative[lower - first];
  }

  /** Probability that the quantile lies between the least and the greatest of n values. */
  private static double bestCoverage(int n, double probability) {
    return 1 - Math.pow(probability, n) - Math.pow(1 - probability, n);
  }

  private static void requireProbability(double probability) {
    if (!(probability > 0 && probability < 1)) {
      throw new IllegalArgumentException("Invalid probability of a quantile: " + probability);
    }
  }
}
