package phrasecensus.music.comparison;

import java.util.Arrays;
import org.apache.commons.statistics.distribution.BetaDistribution;

/**
 * The intraclass correlation of solos in players, of which nothing is known for certain: a grid of
 * values, and what is held of each before any solo is seen.
 */
public final class Correlation {
  private static final double[] GRID = {
    0, .025, .05, .1, .15, .2, .25, .3, .35, .4, .45, .5, .55, .6, .65, .7, .75, .8, .85, .9
  };
  private static final double LAST_EDGE = .95;

  /** Standard deviation of the prior. */
  private static final double DEVIATION = .12;

  /** How many values the grid has. */
  public static final int SIZE = GRID.length;

  private Correlation() {}

  /** The correlation at a place of the grid, from 0 to .9. */
  public static double at(int place) {
    return GRID[place];
  }

  /**
   * What is held of each value of the grid beforehand: the mass of a beta distribution from halfway
   * to the value below to halfway to the one above, of 1 in all.
   *
   * @param mean of the distribution; its standard deviation is .12, so from .06 to .6
   */
  public static double[] prior(double mean) {
    double size = mean * (1 - mean) / (DEVIATION * DEVIATION) - 1;
    BetaDistribution beta = BetaDistribution.of(mean * size, (1 - mean) * size);
    double[] prior = new double[SIZE];
    double sum = 0;
    double below = 0;
    for (int i = 0; i < SIZE; i++) {
      double edge = i + 1 < SIZE ? (GRID[i] + GRID[i + 1]) / 2 : LAST_EDGE;
      double upTo = beta.cumulativeProbability(edge);
      prior[i] = upTo - below;
      below = upTo;
      sum += prior[i];
    }
    for (int i = 0; i < SIZE; i++) {
      prior[i] /= sum;
    }
    return prior;
  }

  /** Nothing is held beforehand. */
  static double[] flat() {
    double[] flat = new double[SIZE];
    Arrays.fill(flat, 1.0 / SIZE);
    return flat;
  }

  /** Turns logarithms of weights into weights of sum 1, in place. */
  static double[] normalised(double[] logarithms) {
    double greatest = Double.NEGATIVE_INFINITY;
    for (double each : logarithms) {
      greatest = Math.max(greatest, each);
    }
    double sum = 0;
    for (int i = 0; i < logarithms.length; i++) {
      logarithms[i] = Math.exp(logarithms[i] - greatest);
      sum += logarithms[i];
    }
    for (int i = 0; i < logarithms.length; i++) {
      logarithms[i] /= sum;
    }
    return logarithms;
  }

  /** Mean of a figure over the grid. */
  static double mean(double[] weights, double[] figure) {
    double sum = 0;
    for (int i = 0; i < weights.length; i++) {
      sum += weights[i] * figure[i];
    }
    return sum;
  }
}
