package phrasecensus.music.norm;

import java.util.List;

/**
 * How alike the values within a cluster are (phrases of a solo, solos of a player), by one-way
 * analysis of variance for clusters of unequal size.
 *
 * <p>ICC = (MSB - MSW) / (MSB + (m0 - 1) MSW) with m0 = (N - sum m² / N) / (a - 1). Source: S. R.
 * Searle, G. Casella and C. E. McCulloch, "Variance Components" (1992), one-way random model (from
 * memory).
 *
 * @param clusters number of clusters, at least 2
 * @param n number of values, more than {@code clusters}
 * @param meanSquareBetween mean square between clusters
 * @param meanSquareWithin mean square within clusters
 * @param typicalSize m0, the cluster size that makes the formula unbiased
 */
public record IntraclassCorrelation(
    int clusters, int n, double meanSquareBetween, double meanSquareWithin, double typicalSize) {

  /**
   * The analysis of variance of the clusters; empty ones are left out.
   *
   * @throws IllegalArgumentException if fewer than two clusters have values, if none has two
   *     values, or if a value is not finite
   */
  public static IntraclassCorrelation of(List<double[]> clusters) {
    int a = 0;
    int n = 0;
    double sum = 0;
    double squaredSizes = 0;
    for (double[] cluster : clusters) {
      if (cluster.length > 0) {
        a++;
        n += cluster.length;
        squaredSizes += (double) cluster.length * cluster.length;
        sum += Sample.of(cluster).mean() * cluster.length;
      }
    }
    if (a < 2 || n <= a) {
      throw new IllegalArgumentException(
          "Cannot give an intraclass correlation: " + n + " values in " + a + " clusters");
    }
    double grandMean = sum / n;
    double between = 0;
    double within = 0;
    for (double[] cluster : clusters) {
      if (cluster.length > 0) {
        double mean = Sample.of(cluster).mean();
        between += cluster.length * (mean - grandMean) * (mean - grandMean);
        for (double value : cluster) {
          within += (value - mean) * (value - mean);
        }
      }
    }
    return new IntraclassCorrelation(
        a, n, between / (a - 1), within / (n - a), (n - squaredSizes / n) / (a - 1));
  }

  /** The estimate, from -1 / (m0 - 1) to 1; 0 when all values are equal. */
  public double value() {
    double denominator = meanSquareBetween + (typicalSize - 1) * meanSquareWithin;
    return denominator == 0 ? 0 : (meanSquareBetween - meanSquareWithin) / denominator;
  }

  /** Variance between clusters, never negative. */
  public double varianceBetween() {
    return Math.max(0, (meanSquareBetween - meanSquareWithin) / typicalSize);
  }
}
