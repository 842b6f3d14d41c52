package phrasecensus.music.aim;

/**
 * What is asked of one statistic of a solo.
 *
 * @param question the question that it serves
 * @param statistic key in the catalogue of statistics
 * @param low least value that meets it; null for no least
 * @param high largest value that meets it; null for no largest
 * @param counted what the statistic counts
 * @param least how many of these it takes to tell, at least 1
 * @param below what is amiss where the value is less than {@code low}
 * @param above what is amiss where it is more than {@code high}
 * @param words the teacher's own words for it, as written; empty for an aim that the program brings
 */
public record Aim(
    Question question,
    String statistic,
    Double low,
    Double high,
    Counted counted,
    int least,
    Finding below,
    Finding above,
    String words) {

  /**
   * @throws IllegalArgumentException for a range without a value in it, or nothing asked
   */
  public Aim {
    if (low == null && high == null || low != null && high != null && low > high) {
      throw new IllegalArgumentException(
          "Invalid aim on " + statistic + ": no value lies from " + low + " to " + high);
    }
    if (least < 1) {
      throw new IllegalArgumentException("Invalid aim on " + statistic + ": least is " + least);
    }
  }

  /** True for a value within the range, its ends included. */
  public boolean isMetBy(double value) {
    return (low == null || value >= low - ROUNDING) && (high == null || value <= high + ROUNDING);
  }

  /** What is amiss with a value; {@link Finding#NONE} where it meets the aim. */
  public Finding finding(double value) {
    return isMetBy(value) ? Finding.NONE : low != null && value < low ? below : above;
  }

  /** More than the rounding error of a share, less than any share of things that are counted. */
  private static final double ROUNDING = 1e-9;
}
