package phrasecensus.music.comparison;

import java.io.Serializable;

/**
 * How a statistic goes with tempo, on its scale: {@code first} for each doubling u above 170
 * quarter notes a minute, {@code second} for u squared.
 */
public record TempoSlopes(double first, double second) implements Serializable {
  /** Nothing is known, or nothing taken out. */
  public static final TempoSlopes NONE = new TempoSlopes(0, 0);

  /**
   * What a value owes to its tempo.
   *
   * @param u doublings
   * @param uu their square, or a mean of squares
   */
  public double at(double u, double uu) {
    return u * first + uu * second;
  }

  /**
   * Sums of squares and products of tempo and value over solos, each less the weighted mean of its
   * group.
   *
   * @param uu sum of w u u
   * @param uq sum of w u (u squared)
   * @param qq sum of w (u squared) (u squared)
   * @param ux sum of w u x
   * @param qx sum of w (u squared) x
   * @param weight sum of w
   */
  public record Sums(double uu, double uq, double qq, double ux, double qx, double weight) {
    /** Slopes by these solos alone; {@link #NONE} where their tempos do not tell them. */
    public TempoSlopes alone() {
      return solved(uu, uq, qq, ux, qx);
    }

    /**
     * Slopes that are drawn toward others as so many further solos would draw them.
     *
     * @param shipped what is drawn toward
     * @param solos how many solos it counts for
     */
    public TempoSlopes drawnToward(Shipped shipped, double solos) {
      double a = solos * shipped.uu();
      double b = solos * shipped.uq();
      double c = solos * shipped.qq();
      TempoSlopes s = shipped.slopes();
      return solved(
          uu + a, uq + b, qq + c, ux + a * s.first + b * s.second, qx + b * s.first + c * s.second);
    }

    private static TempoSlopes solved(double a, double b, double c, double x, double y) {
      double determinant = a * c - b * b;
      return determinant > 0
          ? new TempoSlopes((c * x - b * y) / determinant, (a * y - b * x) / determinant)
          : NONE;
    }
  }

  /**
   * Slopes of other solos and the information that one such solo holds.
   *
   * @param slopes of those solos
   * @param uu sum of squares a solo, as in {@link Sums}
   * @param uq sum of products a solo
   * @param qq sum of squares of the squares a solo
   */
  public record Shipped(TempoSlopes slopes, double uu, double uq, double qq)
      implements Serializable {}

  /**
   * Sums over the solos of a corpus.
   *
   * @param x values on their scale
   * @param u doublings of tempo
   * @param uu squares of them, or what stands for them
   * @param group number of the group of each solo, from 0
   * @param groups how many groups there are
   * @param variance relative variance of each solo
   */
  public static Sums sums(
      double[] x, double[] u, double[] uu, int[] group, int groups, double[] variance) {
    double[] weights = new double[groups];
    double[] meanX = new double[groups];
    double[] meanU = new double[groups];
    double[] meanQ = new double[groups];
    for (int i = 0; i < x.length; i++) {
      double w = 1 / variance[i];
      int g = group[i];
      weights[g] += w;
      meanX[g] += w * x[i];
      meanU[g] += w * u[i];
      meanQ[g] += w * uu[i];
    }
    for (int g = 0; g < groups; g++) {
      meanX[g] /= weights[g];
      meanU[g] /= weights[g];
      meanQ[g] /= weights[g];
    }
    double sumUu = 0;
    double sumUq = 0;
    double sumQq = 0;
    double sumUx = 0;
    double sumQx = 0;
    double weight = 0;
    for (int i = 0; i < x.length; i++) {
      double w = 1 / variance[i];
      int g = group[i];
      double du = u[i] - meanU[g];
      double dq = uu[i] - meanQ[g];
      double dx = x[i] - meanX[g];
      sumUu += w * du * du;
      sumUq += w * du * dq;
      sumQq += w * dq * dq;
      sumUx += w * du * dx;
      sumQx += w * dq * dx;
      weight += w;
    }
    return new Sums(sumUu, sumUq, sumQq, sumUx, sumQx, weight);
  }
}
