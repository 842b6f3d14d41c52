package phrasecensus.music.statistic;

/**
 * Melodic interval variability: 100 times the standard deviation (with n - 1) of the sizes of
 * successive intervals over their mean (Patel, Iversen and Rosenberg 2006, from memory).
 */
public final class IntervalVariability {
  private IntervalVariability() {}

  /**
   * @param sizes interval sizes in semitones, without direction
   * @return at least 0; {@link Double#NaN} for fewer than two intervals or when all are unisons
   */
  public static double coefficient(int... sizes) {
    long sum = 0;
    long squares = 0;
    for (int size : sizes) {
      sum += size;
      squares += (long) size * size;
    }
    return coefficient(sizes.length, sum, squares);
  }

  /** The same from the number of sizes, their sum and the sum of their squares. */
  static double coefficient(int count, long sum, long squares) {
    if (count < 2 || sum == 0) {
      return Double.NaN;
    }
    double mean = (double) sum / count;
    double variance = (squares - sum * mean) / (count - 1);
    return 100 * Math.sqrt(Math.max(0, variance)) / mean;
  }
}
