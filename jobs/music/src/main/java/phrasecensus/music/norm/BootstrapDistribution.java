package phrasecensus.music.norm;

import java.util.Arrays;
import java.util.Optional;
import org.apache.commons.statistics.descriptive.Quantile.EstimationMethod;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.distribution.TDistribution;

/**
 * What a statistic came to in each resample, and the intervals that follow.
 *
 * <p>Quantiles of replicates are of type 7, as in the published check values. An interval is empty
 * when the estimate is undefined or more than one replicate in twenty is.
 *
 * @param estimate the statistic of the solos as they are; NaN when undefined
 * @param replicates its defined values in the resamples
 * @param undefinedCount resamples in which it is undefined
 * @param acceleration a of the BCa interval, from leaving out one unit at a time; NaN when that
 *     leaves the statistic undefined
 * @param units independent units drawn: solos, or players where players are drawn; of the smallest
 *     group
 */
public record BootstrapDistribution(
    double estimate, Sample replicates, int undefinedCount, double acceleration, int units) {
  private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

  /** Replicates nearer to the estimate than this, relatively, are equal to it but for rounding. */
  private static final double ROUNDING = 1e-9;

  private static final double MOST_UNDEFINED = 0.05;

  static BootstrapDistribution of(
      double estimate, double[] replicates, double[] jackknife, int units) {
    double[] defined = Arrays.stream(replicates).filter(value -> !Double.isNaN(value)).toArray();
    return new BootstrapDistribution(
        estimate,
        Sample.of(defined),
        replicates.length - defined.length,
        accelerationOf(jackknife),
        units);
  }

  /** Sum d³ over 6 (sum d²)^1.5, d the distance of each leave-one-out value below their mean. */
  private static double accelerationOf(double[] jackknife) {
    double mean = Arrays.stream(jackknife).average().orElse(Double.NaN);
    double squares = 0;
    double cubes = 0;
    for (double value : jackknife) {
      double d = mean - value;
      squares += d * d;
      cubes += d * d * d;
    }
    return squares == 0 ? 0 : cubes / (6 * Math.pow(squares, 1.5));
  }

  /** Mean of the replicates. */
  public double expectation() {
    return replicates.mean();
  }

  /** Standard deviation of the replicates, with their number as divisor. */
  public double standardError() {
    double mean = replicates.mean();
    double squares = 0;
    for (double value : replicates.values()) {
      squares += (value - mean) * (value - mean);
    }
    return Math.sqrt(squares / replicates.size());
  }

  /** Quantiles of the replicates. */
  public Optional<Interval> percentile(double confidence) {
    return between((1 - confidence) / 2, (1 + confidence) / 2, confidence);
  }

  /**
   * Quantiles of the replicates further out than the percentile interval, by as much as a t
   * interval for a mean is wider than the one that ignores that the spread is estimated: level P(Z
   * &lt; - √(u/(u-1)) t(u-1)) with u units. Source: T. C. Hesterberg, "What teachers should know
   * about the bootstrap", The American Statistician 69 (2015) 371-386,
   * doi:10.1080/00031305.2015.1089789.
   */
  public Optional<Interval> expandedPercentile(double confidence) {
    if (units < 2) {
      return Optional.empty();
    }
    double t = TDistribution.of(units - 1).inverseSurvivalProbability((1 - confidence) / 2);
    double level = NORMAL.survivalProbability(Math.sqrt(units / (units - 1.0)) * t);
    return between(level, 1 - level, confidence);
  }

  /**
   * The bias-corrected and accelerated interval. Empty also when all replicates lie on one side of
   * the estimate. Source: B. Efron, "Better bootstrap confidence intervals", Journal of the
   * American Statistical Association 82 (1987) 171-185, doi:10.1080/01621459.1987.10478410.
   */
  public Optional<Interval> bca(double confidence) {
    if (!isUsable()) {
      return Optional.empty();
    }
    if (replicates.min() == replicates.max()) {
      return percentile(confidence);
    }
    double lower = bcaLevel((1 - confidence) / 2);
    double upper = bcaLevel((1 + confidence) / 2);
    return Double.isNaN(lower) || Double.isNaN(upper)
        ? Optional.empty()
        : between(lower, upper, confidence);
  }

  /** z0 of the BCa interval: the normal quantile of the share of replicates below the estimate. */
  public double biasCorrection() {
    double slack = ROUNDING * Math.max(1e-300, Math.abs(estimate));
    return NORMAL.inverseCumulativeProbability(
        (double) replicates.countBelow(estimate - slack) / replicates.size());
  }

  /** The level at which the BCa interval takes its quantile; NaN when there is none. */
  double bcaLevel(double level) {
    double z0 = biasCorrection();
    double shifted = z0 + NORMAL.inverseCumulativeProbability(level);
    double denominator = 1 - acceleration * shifted;
    return Double.isFinite(z0) && denominator > 0
        ? NORMAL.cumulativeProbability(z0 + shifted / denominator)
        : Double.NaN;
  }

  private boolean isUsable() {
    return Double.isFinite(estimate)
        && !replicates.isEmpty()
        && undefinedCount <= MOST_UNDEFINED * (replicates.size() + undefinedCount);
  }

  private Optional<Interval> between(double lowerLevel, double upperLevel, double confidence) {
    Interval.requireConfidence(confidence);
    if (!isUsable()) {
      return Optional.empty();
    }
    return Optional.of(
        new Interval(
            Quantiles.of(replicates, lowerLevel, EstimationMethod.HF7),
            Quantiles.of(replicates, upperLevel, EstimationMethod.HF7),
            confidence));
  }
}
