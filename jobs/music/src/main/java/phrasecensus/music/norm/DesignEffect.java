package phrasecensus.music.norm;

/**
 * How many times larger the variance of a mean is because its cases come in clusters (phrases in
 * solos): 1 + (m - 1) ICC. Source: L. Kish, "Survey Sampling" (1965), from memory.
 */
public final class DesignEffect {
  private DesignEffect() {}

  /**
   * The design effect for clusters of equal size, or of that mean size.
   *
   * @param clusterSize cases in a cluster, at least 1
   * @param intraclassCorrelation at most 1; a negative one counts as 0, since clusters of phrases
   *     cannot be trusted to be more alike between than within
   * @return at least 1
   * @throws IllegalArgumentException if an argument is out of range
   */
  public static double of(double clusterSize, double intraclassCorrelation) {
    if (!(clusterSize >= 1) || Double.isInfinite(clusterSize)) {
      throw new IllegalArgumentException("Invalid cluster size: " + clusterSize);
    }
    if (!(intraclassCorrelation <= 1)) {
      throw new IllegalArgumentException(
          "Invalid intraclass correlation: " + intraclassCorrelation);
    }
    return 1 + (clusterSize - 1) * Math.max(0, intraclassCorrelation);
  }

  /**
   * The number of independent cases that clustered ones are worth: n over the design effect, with
   * the size-weighted mean cluster size, sum of squares over sum.
   *
   * @param clusterSizes cases in each cluster, each at least 1
   * @throws IllegalArgumentException if there is no cluster or a size is not positive
   */
  public static double effectiveSize(int[] clusterSizes, double intraclassCorrelation) {
    double n = 0;
    double squares = 0;
    for (int size : clusterSizes) {
      if (size < 1) {
        throw new IllegalArgumentException("Invalid cluster size: " + size);
      }
      n += size;
      squares += (double) size * size;
    }
    if (n == 0) {
      throw new IllegalArgumentException("Cannot give an effective size: there is no cluster");
    }
    return n / of(squares / n, intraclassCorrelation);
  }
}
