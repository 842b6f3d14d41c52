package phrasecensus.music.statistic;

/**
 * Shannon entropy of counts, in bits: how evenly things are spread over their classes. {@code H = -
 * sum p log2 p}, with {@code 0 log 0 = 0} (Shannon 1948, doi:10.1002/j.1538-7305.1948.tb01338.x).
 */
public final class Entropy {
  private Entropy() {}

  /**
   * Entropy of the observed shares. It lies below the entropy of what the sample was drawn from, by
   * about {@code (K - 1) / (2 n ln 2)} for {@code K} classes met and {@code n} things.
   *
   * @param counts how often each class was met, none negative
   * @return 0 to log2 of the number of classes; 0 when nothing was counted
   */
  public static double bits(int[] counts) {
    long total = 0;
    for (int count : counts) {
      total += count;
    }
    double entropy = 0;
    for (int count : counts) {
      if (count > 0 && count < total) {
        double share = (double) count / total;
        entropy -= share * Math.log(share);
      }
    }
    return entropy / Math.log(2);
  }

  /**
   * {@link #bits} with the small-sample bias added back: {@code H + (K - 1) / (2 n ln 2)} (Miller
   * 1955, from memory). It may exceed log2 of the number of classes.
   *
   * @return 0 when nothing was counted
   */
  public static double millerMadow(int[] counts) {
    long total = 0;
    int met = 0;
    for (int count : counts) {
      total += count;
      met += count > 0 ? 1 : 0;
    }
    return total == 0 ? 0 : bits(counts) + (met - 1) / (2 * total * Math.log(2));
  }
}
