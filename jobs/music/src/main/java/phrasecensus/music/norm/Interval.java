package phrasecensus.music.norm;

/**
 * A confidence interval, both ends included.
 *
 * @param lower finite
 * @param upper finite, at least {@code lower}
 * @param confidence the confidence asked for, such as 0.95; in (0, 1)
 */
public record Interval(double lower, double upper, double confidence) {
  /** The confidence of every interval here unless another is asked for. */
  public static final double USUAL_CONFIDENCE = 0.95;

  /**
   * @throws IllegalArgumentException if the ends are not finite and in order, or the confidence is
   *     not in (0, 1)
   */
  public Interval {
    if (!Double.isFinite(lower) || !Double.isFinite(upper) || lower > upper) {
      throw new IllegalArgumentException("Invalid interval: " + lower + " to " + upper);
    }
    requireConfidence(confidence);
  }

  public boolean contains(double value) {
    return lower <= value && value <= upper;
  }

  /** True when no value is in both. */
  public boolean isApartFrom(double otherLower, double otherUpper) {
    return upper < otherLower || lower > otherUpper;
  }

  static void requireConfidence(double confidence) {
    if (!(confidence > 0 && confidence < 1)) {
      throw new IllegalArgumentException("Invalid confidence: " + confidence);
    }
  }
}
