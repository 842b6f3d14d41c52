package phrasecensus.music.norm;

/**
 * How widely the values of a group lie, robustly: outliers do not widen it.
 *
 * <p>The interquartile range (type 8) over 1.349, which estimates the standard deviation of a
 * normal distribution. Where half the values or more are equal and that is 0, the median absolute
 * deviation times 1.4826; where that is 0 too, the whole range, which is deliberately wide: a
 * statistic that hardly varies must not turn one odd value into the greatest departure of all. When
 * all values are equal there is no spread.
 *
 * @param size in the unit of the values; positive, or 0 when there is no spread
 * @param basis what it was computed from
 */
public record Spread(double size, Basis basis) {
  /** What a spread was computed from. */
  public enum Basis {
    INTERQUARTILE_RANGE,
    MEDIAN_ABSOLUTE_DEVIATION,
    RANGE,
    /** All values are equal, or there are none. */
    NONE
  }

  /** The spread of a sample, which may be empty. */
  public static Spread of(Sample sample) {
    if (sample.isEmpty() || sample.min() == sample.max()) {
      return new Spread(0, Basis.NONE);
    }
    double interquartile =
        Quantiles.interquartileRange(sample) / Quantiles.NORMAL_INTERQUARTILE_RANGE;
    if (interquartile > 0) {
      return new Spread(interquartile, Basis.INTERQUARTILE_RANGE);
    }
    double deviation =
        sample.medianAbsoluteDeviation() * Quantiles.NORMAL_MEDIAN_ABSOLUTE_DEVIATION;
    if (deviation > 0) {
      return new Spread(deviation, Basis.MEDIAN_ABSOLUTE_DEVIATION);
    }
    return new Spread(sample.max() - sample.min(), Basis.RANGE);
  }

  public boolean isNone() {
    return basis == Basis.NONE;
  }
}
