package phrasecensus.music.norm;

/**
 * The value of one statistic for a student, with the norm to hold it against.
 *
 * @param key key of the statistic in the catalogue
 * @param facet facet of the statistic in the catalogue
 * @param value null when the statistic is undefined for the student
 * @param n how many of the student's phrases the value rests on (for a figure that is not about
 *     phrases, how many of the things it counts); at least 0
 * @param leastN the fewest that a figure can be told from: 3 for figures about phrases
 * @param interval confidence interval of the student's value; null when there is none
 * @param norm norm of the reference group
 */
public record StudentValue(
    String key, String facet, Double value, int n, int leastN, Interval interval, Norm norm) {
  /**
   * Fewer phrases than this are too few for any figure about phrases (common practice, no source).
   */
  public static final int LEAST_PHRASES = 3;

  /**
   * @throws IllegalArgumentException if the value is given and not finite, or n is negative
   */
  public StudentValue {
    if (value != null && !Double.isFinite(value)) {
      throw new IllegalArgumentException("Invalid value of " + key + ": " + value);
    }
    if (n < 0 || leastN < 0) {
      throw new IllegalArgumentException("Invalid count for " + key + ": " + Math.min(n, leastN));
    }
  }

  /** A figure about phrases, without an interval. */
  public StudentValue(String key, String facet, Double value, int n, Norm norm) {
    this(key, facet, value, n, LEAST_PHRASES, null, norm);
  }
}
