package phrasecensus.music.statistic;

/**
 * The value of one statistic.
 *
 * @param key key in the statistics catalogue
 * @param value null when the statistic is undefined here
 * @param n how many things it was computed from, as the catalogue says; its denominator; at least 0
 */
public record StatisticValue(String key, Double value, int n) {
  /** An undefined value. */
  public static StatisticValue undefined(String key) {
    return new StatisticValue(key, null, 0);
  }

  /** A share, undefined when there is nothing to share. */
  public static StatisticValue share(String key, int part, int whole) {
    return whole == 0 ? undefined(key) : new StatisticValue(key, (double) part / whole, whole);
  }
}
