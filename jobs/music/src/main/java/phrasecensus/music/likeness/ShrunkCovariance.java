package phrasecensus.music.likeness;

import java.util.List;

/**
 * A covariance matrix drawn toward a multiple of the identity by as much as the sample itself asks
 * for, so that it can be inverted however few the rows: O. Ledoit and M. Wolf, "A well-conditioned
 * estimator for large-dimensional covariance matrices", Journal of Multivariate Analysis 88 (2004)
 * 365-411.
 *
 * @param matrix the covariance, dividing by the number of rows
 * @param shrinkage weight of the identity; from 0 to 1
 */
record ShrunkCovariance(double[][] matrix, double shrinkage) {
  /**
   * @param rows deviations from a mean that is known, or that they were made to have; one row or
   *     more, all of the same length
   */
  static ShrunkCovariance of(List<double[]> rows) {
    int n = rows.size();
    int size = rows.get(0).length;
    double[][] sample = new double[size][size];
    double fourthPowers = 0;
    for (double[] row : rows) {
      double square = 0;
      for (int i = 0; i < size; i++) {
        square += row[i] * row[i];
        for (int j = 0; j <= i; j++) {
          sample[i][j] += row[i] * row[j];
        }
      }
      fourthPowers += square * square;
    }
    double trace = 0;
    double squares = 0;
    for (int i = 0; i < size; i++) {
      for (int j = 0; j <= i; j++) {
        sample[i][j] /= n;
        sample[j][i] = sample[i][j];
        squares += (i == j ? 1 : 2) * sample[i][j] * sample[i][j];
      }
      trace += sample[i][i];
    }
    double mean = trace / size;
    // How far the sample lies from the multiple of the identity, and how much of that is chance.
    double apart = squares - size * mean * mean;
    double chance = Math.min(apart, (fourthPowers / n - squares) / n);
    double shrinkage = apart > 0 ? chance / apart : 0;
    for (int i = 0; i < size; i++) {
      for (int j = 0; j < size; j++) {
        sample[i][j] *= 1 - shrinkage;
      }
      sample[i][i] += shrinkage * mean;
    }
    return new ShrunkCovariance(sample, shrinkage);
  }
}
