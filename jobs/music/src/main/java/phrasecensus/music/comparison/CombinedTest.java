package phrasecensus.music.comparison;

/**
 * One p-value of several that may depend on each other, by the mean of their Cauchy deviates: Y.
 * Liu and J. Xie, "Cauchy combination test", Journal of the American Statistical Association 115
 * (2020) 393-402 (from memory). A p is held at .9, so that one near 1 does not hide its neighbour.
 */
public final class CombinedTest {
  private static final double LEAST = 1e-15;
  private static final double MOST = .9;

  private CombinedTest() {}

  /**
   * @param pValues at least one
   * @throws IllegalArgumentException if there is none
   */
  public static double p(double... pValues) {
    if (pValues.length == 0) {
      throw new IllegalArgumentException("Cannot combine p-values: there is none");
    }
    double sum = 0;
    for (double p : pValues) {
      sum += Math.tan((0.5 - Math.min(MOST, Math.max(LEAST, p))) * Math.PI);
    }
    return 0.5 - Math.atan(sum / pValues.length) / Math.PI;
  }
}
