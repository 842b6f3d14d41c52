package phrasecensus.music.comparison;

/**
 * What the solos of one group say, for every correlation of the grid: the generalised least squares
 * of values whose covariance is rho for two solos of one player and rho + (1 - rho) v for a solo.
 */
final class GroupSums {
  private final int solos;
  private final double[] mean = new double[Correlation.SIZE];
  private final double[] information = new double[Correlation.SIZE];
  private final double[] squares = new double[Correlation.SIZE];
  private final double[] halfLogDeterminant = new double[Correlation.SIZE];

  private GroupSums(int solos) {
    this.solos = solos;
  }

  /**
   * @param values on their scale, tempo taken out; at least one
   * @param player number of the player of each, from 0, in any order, none left out
   * @param variance relative variance of each
   */
  static GroupSums of(double[] values, int[] player, double[] variance) {
    int players = 0;
    for (int each : player) {
      players = Math.max(players, each + 1);
    }
    double[] omega = new double[players];
    double[] means = new double[players];
    int[] counts = new int[players];
    for (int i = 0; i < values.length; i++) {
      double w = 1 / variance[i];
      omega[player[i]] += w;
      means[player[i]] += w * values[i];
      counts[player[i]]++;
    }
    for (int j = 0; j < players; j++) {
      means[j] /= omega[j];
    }
    double inside = 0;
    for (int i = 0; i < values.length; i++) {
      double apart = values[i] - means[player[i]];
      inside += apart * apart / variance[i];
    }
    GroupSums sums = new GroupSums(values.length);
    for (int r = 0; r < Correlation.SIZE; r++) {
      double rho = Correlation.at(r);
      double u = 0;
      double um = 0;
      double determinant = 0;
      for (int j = 0; j < players; j++) {
        double each = 1 / (rho + (1 - rho) / omega[j]);
        u += each;
        um += each * means[j];
        determinant += (counts[j] - 1) * Math.log(1 - rho) + Math.log(1 - rho + rho * omega[j]);
      }
      double mu = um / u;
      double between = 0;
      for (int j = 0; j < players; j++) {
        double apart = means[j] - mu;
        between += apart * apart / (rho + (1 - rho) / omega[j]);
      }
      sums.mean[r] = mu;
      sums.information[r] = u;
      sums.squares[r] = inside / (1 - rho) + between;
      sums.halfLogDeterminant[r] = determinant / 2;
    }
    return sums;
  }

  int solos() {
    return solos;
  }

  /** Mean of players, mu. */
  double mean(int place) {
    return mean[place];
  }

  /** Information on it, U: its variance is 1 / U in units of the variance of a solo. */
  double information(int place) {
    return information[place];
  }

  /** Weighted sum of squares about it, Q. */
  double squares(int place) {
    return squares[place];
  }

  /** Half the logarithm of the determinant, D, up to what depends on variances alone. */
  double halfLogDeterminant(int place) {
    return halfLogDeterminant[place];
  }
}
