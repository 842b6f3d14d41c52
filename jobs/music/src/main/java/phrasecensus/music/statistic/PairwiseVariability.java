package phrasecensus.music.statistic;

/**
 * Normalised pairwise variability index: how much each length differs from the next. {@code nPVI =
 * 100/(m - 1) * sum |d_k - d_(k+1)| / ((d_k + d_(k+1)) / 2)} for {@code m} lengths (Low, Grabe and
 * Nolan 2000; Grabe and Low 2002).
 *
 * <p>Most of what makes two values differ is the share of equal neighbours (Condit-Schultz 2019),
 * so that share belongs beside it.
 */
public final class PairwiseVariability {
  private PairwiseVariability() {}

  /**
   * The index over one or more runs of lengths; lengths of different runs are never paired.
   *
   * @param runs positive lengths in order, in any unit
   * @return 0 (all neighbours equal) to 200; {@link Double#NaN} when no run has two lengths
   */
  public static double normalised(double[]... runs) {
    double sum = 0;
    int pairs = 0;
    for (double[] run : runs) {
      for (int i = 1; i < run.length; i++) {
        sum += term(run[i - 1], run[i]);
        pairs++;
      }
    }
    return pairs == 0 ? Double.NaN : sum / pairs;
  }

  /** What one pair of neighbours adds to the mean: 0 to 200. */
  static double term(double length, double next) {
    return 200 * Math.abs(length - next) / (length + next);
  }
}
