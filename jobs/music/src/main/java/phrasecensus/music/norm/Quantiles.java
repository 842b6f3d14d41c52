package phrasecensus.music.norm;

import org.apache.commons.statistics.descriptive.Quantile;
import org.apache.commons.statistics.descriptive.Quantile.EstimationMethod;

/**
 * Exact quantiles of a sample.
 *
 * <p>Type 8 of Hyndman and Fan unless another is asked for: median-unbiased whatever the
 * distribution, and the type its authors recommend. Spreadsheets and most notebooks use type 7 by
 * default, so a figure computed there differs a little in small groups. Source: R. J. Hyndman and
 * Y. Fan, "Sample quantiles in statistical packages", The American Statistician 50 (1996) 361-365,
 * doi:10.1080/00031305.1996.10473566.
 */
public final class Quantiles {
  /** Ratio of the interquartile range to the standard deviation of a normal distribution. */
  static final double NORMAL_INTERQUARTILE_RANGE = 1.349;

  /** What to multiply a median absolute deviation by to estimate a normal standard deviation. */
  static final double NORMAL_MEDIAN_ABSOLUTE_DEVIATION = 1.4826;

  private Quantiles() {}

  /**
   * The type-8 quantile.
   *
   * @param sample at least one value
   * @param probability from 0 (the least value) to 1 (the greatest)
   * @return in the unit of the values, never outside their range
   * @throws IllegalArgumentException if the sample is empty or the probability outside [0, 1]
   */
  public static double of(Sample sample, double probability) {
    return of(sample, probability, EstimationMethod.HF8);
  }

  /**
   * The quantile by a stated type.
   *
   * @param sample at least one value
   * @param probability from 0 to 1
   * @param type {@code HF1} to {@code HF9}, numbered as in the paper and in R
   * @throws IllegalArgumentException if the sample is empty or the probability outside [0, 1]
   */
  public static double of(Sample sample, double probability, EstimationMethod type) {
    if (sample.isEmpty()) {
      throw new IllegalArgumentException("Cannot give a quantile: the sample is empty");
    }
    if (!(probability >= 0 && probability <= 1)) {
      throw new IllegalArgumentException("Invalid probability of a quantile: " + probability);
    }
    return Quantile.withDefaults().with(type).evaluate(sample.size(), sample::at, probability);
  }

  /**
   * The distance between the type-8 quartiles, in the unit of the values.
   *
   * @throws IllegalArgumentException if the sample is empty
   */
  public static double interquartileRange(Sample sample) {
    return of(sample, 0.75) - of(sample, 0.25);
  }
}
