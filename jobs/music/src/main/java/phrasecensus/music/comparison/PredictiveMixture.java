package phrasecensus.music.comparison;

import java.io.Serializable;
import java.util.Optional;

/**
 * Where the solos of one further player of a group would lie: a mixture of Student's t
 * distributions, one for each value that the correlation of solos in players may have, and for each
 * number of solos that the mean of the other groups may count for.
 *
 * <p>Verdict and interval are read off the same mixture, so that they cannot contradict each other:
 * a value lies outside the interval of a level exactly when its p is at most that level.
 *
 * <p>Variances are drawn toward that of the other groups as by G. K. Smyth, "Linear models and
 * empirical Bayes methods", Statistical Applications in Genetics and Molecular Biology 3 (2004) 3
 * (from memory).
 */
public final class PredictiveMixture implements Serializable {
  private static final long serialVersionUID = 1L;

  /** Fewest solos of a group where the others say nothing. */
  public static final int LEAST_SOLOS_ALONE = 11;

  /** Fewest solos of one player who is the whole group. */
  public static final int LEAST_SOLOS_OF_ONE = 3;

  /** Degrees of freedom that the variance of the other groups counts for. */
  private static final int MODERATION = 10;

  private static final double[] PULL = {9, 3, 1, .1};
  private static final double[] PULL_WEIGHT = {.5, .2, .2, .1};
  private static final double NOTHING = 1e-18;
  private static final int MOST_STEPS = 200;

  private final double[] correlation;
  private final double[] centre;
  private final double[] variance;
  private final double[] centreVariance;
  private final double[] weight;
  private final int freedom;

  private PredictiveMixture(
      double[] correlation,
      double[] centre,
      double[] variance,
      double[] centreVariance,
      double[] weight,
      int freedom) {
    this.correlation = correlation;
    this.centre = centre;
    this.variance = variance;
    this.centreVariance = centreVariance;
    this.weight = weight;
    this.freedom = freedom;
  }

  /**
   * Of a group of several players.
   *
   * @param values of its solos on their scale, tempo taken out
   * @param player number of the player of each, from 0
   * @param relative relative variance of each
   * @param prior what is held of the correlation beforehand
   * @param others what the other groups say
   * @return empty where solos are too few or nothing varies
   */
  public static Optional<PredictiveMixture> of(
      double[] values, int[] player, double[] relative, double[] prior, OtherGroups others) {
    int n = values.length;
    if (n < leastSolos(others)) {
      return Optional.empty();
    }
    GroupSums sums = GroupSums.of(values, player, relative);
    double told = others.speak() ? MODERATION * others.variance() : 0;
    for (int r = 0; r < Correlation.SIZE; r++) {
      if (told + sums.squares(r) <= NOTHING) {
        return Optional.empty();
      }
    }
    return Optional.of(others.speak() ? drawn(sums, prior, others) : alone(sums, prior));
  }

  /** Fewest solos that a group needs beside such others. */
  public static int leastSolos(OtherGroups others) {
    return others.speak() ? OtherGroups.LEAST_SOLOS : LEAST_SOLOS_ALONE;
  }

  private static PredictiveMixture alone(GroupSums sums, double[] prior) {
    int freedom = sums.solos() - 1;
    PredictiveMixture mixture = empty(Correlation.SIZE, freedom);
    for (int r = 0; r < Correlation.SIZE; r++) {
      double squares = sums.squares(r);
      mixture.set(
          r,
          r,
          sums.mean(r),
          squares / freedom,
          1 / sums.information(r),
          Math.log(prior[r])
              - freedom * Math.log(squares) / 2
              - sums.halfLogDeterminant(r)
              - Math.log(sums.information(r)) / 2);
    }
    Correlation.normalised(mixture.weight);
    return mixture;
  }

  private static PredictiveMixture drawn(GroupSums sums, double[] prior, OtherGroups others) {
    int freedom = MODERATION + sums.solos();
    PredictiveMixture mixture = empty(PULL.length * Correlation.SIZE, freedom);
    for (int p = 0; p < PULL.length; p++) {
      double pull = PULL[p] * others.groups() / (others.groups() + 1);
      for (int r = 0; r < Correlation.SIZE; r++) {
        double information = sums.information(r);
        double apart = sums.mean(r) - others.mean();
        double squares =
            MODERATION * others.variance()
                + sums.squares(r)
                + apart * apart * information * pull / (information + pull);
        mixture.set(
            p * Correlation.SIZE + r,
            r,
            (information * sums.mean(r) + pull * others.mean()) / (information + pull),
            squares / freedom,
            1 / (information + pull),
            Math.log(prior[r])
                + Math.log(PULL_WEIGHT[p])
                - freedom * Math.log(squares) / 2
                - sums.halfLogDeterminant(r)
                + Math.log(pull / (information + pull)) / 2);
      }
    }
    Correlation.normalised(mixture.weight);
    return mixture;
  }

  /**
   * Of a group that is one player: what further solos of the same player would be like.
   *
   * @param values of three solos or more
   * @param relative relative variance of each
   * @param others what the other groups say
   * @return empty where solos are too few or nothing varies
   */
  public static Optional<PredictiveMixture> ofOnePlayer(
      double[] values, double[] relative, OtherGroups others) {
    if (values.length < LEAST_SOLOS_OF_ONE) {
      return Optional.empty();
    }
    double omega = 0;
    double sum = 0;
    for (int i = 0; i < values.length; i++) {
      omega += 1 / relative[i];
      sum += values[i] / relative[i];
    }
    double mu = sum / omega;
    double squares = others.speak() ? MODERATION * others.varianceWithin() : 0;
    for (int i = 0; i < values.length; i++) {
      squares += (values[i] - mu) * (values[i] - mu) / relative[i];
    }
    if (squares <= NOTHING) {
      return Optional.empty();
    }
    int freedom = (others.speak() ? MODERATION : 0) + values.length - 1;
    PredictiveMixture mixture = empty(1, freedom);
    mixture.set(0, 0, mu, squares / freedom, 1 / omega, 1);
    return Optional.of(mixture);
  }

  private static PredictiveMixture empty(int cells, int freedom) {
    return new PredictiveMixture(
        new double[cells],
        new double[cells],
        new double[cells],
        new double[cells],
        new double[cells],
        freedom);
  }

  private void set(
      int cell, int place, double mu, double tau2, double muVariance, double weightOrLogarithm) {
    correlation[cell] = Correlation.at(place);
    centre[cell] = mu;
    variance[cell] = tau2;
    centreVariance[cell] = muVariance;
    weight[cell] = weightOrLogarithm;
  }

  /** Degrees of freedom that the group has; those of a test may be {@link Freedom capped}. */
  public int freedom() {
    return freedom;
  }

  /** The mixture's mean of the centre, on the scale. */
  public double centre() {
    return Correlation.mean(weight, centre);
  }

  /** The mixture's mean of the correlation of solos in players. */
  public double correlation() {
    return Correlation.mean(weight, correlation);
  }

  /** The mixture's mean of the variance of a usual solo, on the scale. */
  public double variance() {
    return Correlation.mean(weight, variance);
  }

  /** The mixture's mean of the variance of the centre, in units of that of a usual solo. */
  public double centreVariance() {
    return Correlation.mean(weight, centreVariance);
  }

  /**
   * What the mean of the variance of the centre would be of a larger group of such players.
   *
   * @param omega sum of the weights of each player's solos
   * @param solosTimes how many times as many solos each player has
   * @param playersTimes how many times as many players there are
   * @param others what the other groups say
   */
  double centreVariance(
      double[] omega, double solosTimes, double playersTimes, OtherGroups others) {
    double sum = 0;
    for (int i = 0; i < weight.length; i++) {
      double rho = correlation[i];
      double information = 0;
      for (double each : omega) {
        information += 1 / (rho + (1 - rho) / (solosTimes * each));
      }
      double pull =
          weight.length > Correlation.SIZE
              ? PULL[i / Correlation.SIZE] * others.groups() / (others.groups() + 1)
              : 0;
      sum += weight[i] / (playersTimes * information + pull);
    }
    return sum;
  }

  double[] weights() {
    return weight.clone();
  }

  double[] variances() {
    return variance.clone();
  }

  /** Deviation of the mean of solos with that sum of weights, in one cell. */
  private double deviation(int cell, double omega) {
    double rho = correlation[cell];
    return Math.sqrt(variance[cell] * (rho + (1 - rho) / omega + centreVariance[cell]));
  }

  private StudentT distribution(int cap) {
    return new StudentT(Math.min(freedom, cap));
  }

  /** Probability of a mean of at most y, with a small relative error. */
  double below(double y, double omega, int cap) {
    return tail(y, omega, cap, 1);
  }

  /** Probability of a mean of at least y. */
  double above(double y, double omega, int cap) {
    return tail(y, omega, cap, -1);
  }

  private double tail(double y, double omega, int cap, int sign) {
    StudentT t = distribution(cap);
    double sum = 0;
    for (int i = 0; i < weight.length; i++) {
      if (weight[i] > 0) {
        sum += weight[i] * t.exactBelow(sign * (y - centre[i]) / deviation(i, omega));
      }
    }
    return sum;
  }

  /**
   * How probable a mean at least as far out is: twice the smaller tail, at most 1.
   *
   * @param y weighted mean of a student's solos, tempo taken out
   * @param omega sum of their weights
   * @param cap most degrees of freedom, as {@link Freedom} has them
   */
  public double p(double y, double omega, int cap) {
    return Math.min(1, 2 * Math.min(below(y, omega, cap), above(y, omega, cap)));
  }

  double[] eachP(double y, double omega, int cap) {
    StudentT t = distribution(cap);
    double[] each = new double[weight.length];
    for (int i = 0; i < weight.length; i++) {
      each[i] = 2 * t.exactBelow(-Math.abs(y - centre[i]) / deviation(i, omega));
    }
    return each;
  }

  /**
   * An interval on the scale.
   *
   * @param low lower end
   * @param high upper end
   */
  public record Range(double low, double high) {
    /** True when y is neither below nor above. */
    public boolean holds(double y) {
      return low <= y && y <= high;
    }
  }

  /**
   * Where the mean of such solos of a further player lies but for a share {@code level} of players.
   *
   * @param level in (0, 1)
   * @param omega sum of the weights of the student's solos
   * @param cap most degrees of freedom
   */
  public Range interval(double level, double omega, int cap) {
    StudentT t = distribution(cap);
    double[] deviation = new double[weight.length];
    for (int i = 0; i < weight.length; i++) {
      deviation[i] = deviation(i, omega);
    }
    double reach = t.exceededWith(level / 2);
    return new Range(
        end(t, deviation, reach, level / 2, -1), end(t, deviation, reach, level / 2, 1));
  }

  /** Newton's steps for the tail, halving where they leave what is known to hold the end. */
  private double end(StudentT t, double[] deviation, double reach, double tail, int side) {
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    double mean = 0;
    for (int i = 0; i < weight.length; i++) {
      double own = centre[i] + side * reach * deviation[i];
      low = Math.min(low, own);
      high = Math.max(high, own);
      mean += weight[i] * own;
    }
    double y = Math.min(high, Math.max(low, mean));
    for (int step = 0; step < MOST_STEPS && low < high; step++) {
      double sum = 0;
      double density = 0;
      for (int i = 0; i < weight.length; i++) {
        if (weight[i] > 0) {
          double z = (y - centre[i]) / deviation[i];
          sum += weight[i] * t.below(-side * z);
          density += weight[i] * t.density(z) / deviation[i];
        }
      }
      // Further out on this side there is less beyond.
      boolean tooFarOut = sum < tail;
      if (tooFarOut == (side > 0)) {
        high = y;
      } else {
        low = y;
      }
      double next = y + side * (sum - tail) / density;
      if (!(next > low && next < high)) {
        next = (low + high) / 2;
      }
      if (next == y || Math.abs(next - y) <= Math.ulp(y)) {
        return next;
      }
      y = next;
    }
    return y;
  }
}
