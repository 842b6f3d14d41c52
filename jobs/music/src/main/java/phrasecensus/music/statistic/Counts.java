package phrasecensus.music.statistic;

/** Sums of counts, place by place. */
final class Counts {
  private Counts() {}

  static void add(int[] sums, int[] counts) {
    for (int i = 0; i < sums.length; i++) {
      sums[i] += counts[i];
    }
  }

  static void add(double[] sums, double[] counts) {
    for (int i = 0; i < sums.length; i++) {
      sums[i] += counts[i];
    }
  }
}
