package phrasecensus.music.norm;

/**
 * In how many orders of values each number of inverted pairs occurs: the exact distributions behind
 * the Mann-Whitney and the Kendall statistic.
 *
 * <p>Both are products of Gaussian binomial coefficients, the coefficient of q^k counting the
 * orders with k inversions. Counts are exact while they fit 53 bits, and the lower tail is exact to
 * rounding beyond that. Source: R. P. Stanley, "Enumerative Combinatorics" 1, section 1.7 (from
 * memory).
 */
final class RankCounts {
  private RankCounts() {}

  /**
   * Orders of values in groups, counted by inverted pairs between groups.
   *
   * @param groupSizes at least one group, each at least 1; two groups give the Mann-Whitney
   *     distribution, groups of one Kendall's
   * @return at k the number of orders with k inversions
   */
  static double[] byInversions(int... groupSizes) {
    int pairs = 0;
    int before = 0;
    for (int size : groupSizes) {
      pairs += before * size;
      before += size;
    }
    double[] counts = new double[pairs + 1];
    counts[0] = 1;
    before = 0;
    for (int size : groupSizes) {
      multiplyByBinomial(counts, before, size);
      before += size;
    }
    return counts;
  }

  /**
   * The greatest rank r from the end that still holds the stated probability: the largest r with
   * P(K &lt; r) at most {@code tail}, so that the r-th least and r-th greatest of all pairwise
   * values make an interval of confidence 1 - 2 tail at least.
   *
   * @return 0 when even the least and the greatest do not reach the confidence
   */
  static int rankWithin(double tail, int... groupSizes) {
    double[] counts = byInversions(groupSizes);
    double total = 0;
    for (double count : counts) {
      total += count;
    }
    double below = 0;
    int rank = 0;
    while (rank < counts.length && below + counts[rank] <= tail * total) {
      below += counts[rank++];
    }
    return rank;
  }

  /** Multiplies by the Gaussian binomial of n + m over n, in place. */
  private static void multiplyByBinomial(double[] counts, int n, int m) {
    for (int i = 1; i <= n; i++) {
      for (int k = counts.length - 1; k >= m + i; k--) {
        counts[k] -= counts[k - m - i];
      }
      for (int k = i; k < counts.length; k++) {
        counts[k] += counts[k - i];
      }
    }
  }
}
