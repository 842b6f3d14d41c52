package phrasecensus.music.norm;

import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * The score interval for a proportion: centre (k + z²/2) / (n + z²), half-width z / (n + z²) √(k (n
 * - k) / n + z²/4).
 *
 * <p>For independent cases. Phrases within solos are not: divide both counts by the {@link
 * DesignEffect}, or use the {@link ClusterBootstrap}. Source: E. B. Wilson, "Probable inference,
 * the law of succession, and statistical inference", Journal of the American Statistical
 * Association 22 (1927) 209-212, doi:10.1080/01621459.1927.10502953; recommended by R. G. Newcombe,
 * Statistics in Medicine 17 (1998) 857-872 (from memory).
 */
public final class WilsonInterval {
  private WilsonInterval() {}

  /** The 95 % interval for {@code part} cases of {@code whole}. */
  public static Interval of(double part, double whole) {
    return of(part, whole, Interval.USUAL_CONFIDENCE);
  }

  /**
   * The interval for {@code part} cases of {@code whole}; counts may be fractions, as they are
   * after division by a design effect.
   *
   * @return within [0, 1]
   * @throws IllegalArgumentException if {@code whole} is not positive or {@code part} not in [0,
   *     whole]
   */
  public static Interval of(double part, double whole, double confidence) {
    Interval.requireConfidence(confidence);
    if (!(whole > 0 && part >= 0 && part <= whole) || Double.isInfinite(whole)) {
      throw new IllegalArgumentException("Invalid proportion: " + part + " of " + whole);
    }
    double z = NormalDistribution.of(0, 1).inverseSurvivalProbability((1 - confidence) / 2);
    double denominator = whole + z * z;
    double centre = (part + z * z / 2) / denominator;
    double half = z / denominator * Math.sqrt(part * (whole - part) / whole + z * z / 4);
    return new Interval(
        part == 0 ? 0 : Math.max(0, centre - half),
        part == whole ? 1 : Math.min(1, centre + half),
        confidence);
  }
}
