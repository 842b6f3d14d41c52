package phrasecensus.music.likeness;

import java.io.Serializable;

/** The lower triangle L of a symmetric positive definite matrix L L'. */
final class Cholesky implements Serializable {
  private static final long serialVersionUID = 1L;

  private final double[][] lower;

  private Cholesky(double[][] lower) {
    this.lower = lower;
  }

  /**
   * @throws IllegalArgumentException if the matrix is not positive definite
   */
  static Cholesky of(double[][] matrix) {
    int size = matrix.length;
    double[][] lower = new double[size][size];
    for (int i = 0; i < size; i++) {
      for (int j = 0; j <= i; j++) {
        double rest = matrix[i][j];
        for (int k = 0; k < j; k++) {
          rest -= lower[i][k] * lower[j][k];
        }
        if (i != j) {
          lower[i][j] = rest / lower[j][j];
        } else if (rest > 0) {
          lower[i][i] = Math.sqrt(rest);
        } else {
          throw new IllegalArgumentException("Not a positive definite matrix");
        }
      }
    }
    return new Cholesky(lower);
  }

  /**
   * L^-1 x: its coordinates are uncorrelated with variance 1 where x has the matrix as covariance.
   */
  double[] whitened(double[] x) {
    double[] y = new double[x.length];
    for (int i = 0; i < x.length; i++) {
      double rest = x[i];
      for (int k = 0; k < i; k++) {
        rest -= lower[i][k] * y[k];
      }
      y[i] = rest / lower[i][i];
    }
    return y;
  }

  /** Inverse of the matrix times x. */
  double[] solve(double[] x) {
    double[] y = whitened(x);
    for (int i = y.length - 1; i >= 0; i--) {
      double rest = y[i];
      for (int k = i + 1; k < y.length; k++) {
        rest -= lower[k][i] * y[k];
      }
      y[i] = rest / lower[i][i];
    }
    return y;
  }

  /** x' times the inverse of the matrix times x; at least 0. */
  double squaredLength(double[] x) {
    double sum = 0;
    for (double each : whitened(x)) {
      sum += each * each;
    }
    return sum;
  }

  /** Natural logarithm of the determinant of the matrix. */
  double logDeterminant() {
    double sum = 0;
    for (int i = 0; i < lower.length; i++) {
      sum += Math.log(lower[i][i]);
    }
    return 2 * sum;
  }

  /** L m L'. */
  double[][] unwhitened(double[][] m) {
    int size = lower.length;
    double[][] half = new double[size][size];
    double[][] whole = new double[size][size];
    for (int i = 0; i < size; i++) {
      for (int j = 0; j < size; j++) {
        for (int k = 0; k <= i; k++) {
          half[i][j] += lower[i][k] * m[k][j];
        }
      }
    }
    for (int i = 0; i < size; i++) {
      for (int j = 0; j <= i; j++) {
        for (int k = 0; k <= j; k++) {
          whole[i][j] += half[i][k] * lower[j][k];
        }
        whole[j][i] = whole[i][j];
      }
    }
    return whole;
  }
}
