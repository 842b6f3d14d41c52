package phrasecensus.music.comparison;

import java.util.Arrays;
import java.util.Optional;
import phrasecensus.music.norm.CounterRandom;

/**
 * Two groups of solos beside each other in one statistic: how far their players' means lie apart,
 * and how far chance would bring them.
 *
 * <p>The difference is that of generalised least squares with the covariance of {@link GroupSums},
 * for the correlation that both groups together make likely; a player of both groups ties their
 * means together. Chance deals whole players who are in one group, and, within each player who is
 * in both, that player's solos; a deal counts in standard errors, so that players of many solos do
 * not decide by where they fall. What is dealt at random is the difference less what it is held to
 * be, so the interval is every difference that would not be found at its level: it holds 0 exactly
 * when p is above that level. Test and interval thus rest on dealing alone; that solos are normal
 * only decides how they are weighed. Permutation tests that are turned into intervals: P. H.
 * Garthwaite, "Confidence intervals from randomization tests", Biometrics 52 (1996) 1387-1393 (from
 * memory); one is added to both counts of random deals as by B. Phipson and G. K. Smyth,
 * "Permutation P-values should never be zero", Statistical Applications in Genetics and Molecular
 * Biology 9 (2010) 39.
 *
 * @param first mean of the first group's players, on the scale
 * @param second mean of the second group's
 * @param low lower end of the 95 % interval of their difference, first less second; NaN where the
 *     ways of dealing are too few for one
 * @param high upper end; NaN with {@code low}
 * @param p that chance brings them as far apart; NaN with {@code low}
 * @param deviation standard deviation of a usual solo about its group's mean, on the scale
 * @param correlation of solos in players that the groups together make likely
 * @param dealt what was dealt
 * @param deals ways of dealing looked at
 * @param unnamed solos whose player is not known, each taken as a player of its own
 */
public record GroupContrast(
    double first,
    double second,
    double low,
    double high,
    double p,
    double deviation,
    double correlation,
    Dealt dealt,
    int deals,
    int unnamed) {
  /** Fewest solos of either group. */
  public static final int LEAST_SOLOS = 6;

  /** Deals looked at where there are more. */
  public static final int USUAL_DEALS = 2000;

  private static final double LEVEL = TestFamily.LEVEL;
  private static final double NOTHING = 1e-18;

  /** Deals nearer to the groups as they are than this are the same but for rounding. */
  private static final double ROUNDING = 1e-9;

  /** What is dealt into the two groups. */
  public enum Dealt {
    /** Whole players: nobody is in both groups. */
    PLAYERS,
    /** Solos within each player: everybody is in both. */
    SOLOS_OF_PLAYERS,
    /** Whole players who are in one group, and solos within those who are in both. */
    BOTH
  }

  /**
   * @param values of the solos on their scale, tempo taken out
   * @param inFirst which of them are in the first group
   * @param player number of the player of each, from 0, none left out; the same in both groups
   * @param relative relative variance of each
   * @param prior what is held of the correlation beforehand
   * @param unnamed how many of the solos have no player's name
   * @param seed of the study
   * @return empty where a group has too few solos or nothing varies
   */
  public static Optional<GroupContrast> of(
      double[] values,
      boolean[] inFirst,
      int[] player,
      double[] relative,
      double[] prior,
      int unnamed,
      long seed) {
    int firsts = 0;
    for (boolean each : inFirst) {
      firsts += each ? 1 : 0;
    }
    if (Math.min(firsts, values.length - firsts) < LEAST_SOLOS) {
      return Optional.empty();
    }
    double middle = Arrays.stream(values).average().orElseThrow();
    double[] centred = Arrays.stream(values).map(value -> value - middle).toArray();
    Units units = Units.of(centred, inFirst, player, relative);
    int freedom = values.length - 2;
    double[] weights = new double[Correlation.SIZE];
    double[] variances = new double[Correlation.SIZE];
    for (int r = 0; r < Correlation.SIZE; r++) {
      Fit fit = units.fit(Correlation.at(r));
      double squares = units.squares(Correlation.at(r), fit);
      if (squares <= NOTHING) {
        return Optional.empty();
      }
      variances[r] = squares / freedom;
      weights[r] =
          Math.log(prior[r])
              - freedom * Math.log(squares) / 2
              - units.halfLogDeterminant(Correlation.at(r))
              - Math.log(fit.determinant()) / 2;
    }
    Correlation.normalised(weights);
    double correlation = 0;
    for (int r = 0; r < Correlation.SIZE; r++) {
      correlation += weights[r] * Correlation.at(r);
    }
    Fit fit = units.fit(correlation);
    Deals deals = new Deals(units, correlation, fit);
    deals.run(seed);
    return Optional.of(
        new GroupContrast(
            middle + fit.firstMean(),
            middle + fit.secondMean(),
            deals.low(),
            deals.high(),
            deals.p(),
            Math.sqrt(Correlation.mean(weights, variances)),
            correlation,
            units.dealt(),
            deals.count,
            unnamed));
  }

  /** First less second, on the scale. */
  public double difference() {
    return first - second;
  }

  /** True where the ways of dealing are enough for a test and an interval. */
  public boolean isTested() {
    return !Double.isNaN(p);
  }

  /** The middle between both means, from which a difference is shown in the statistic's unit. */
  public double middle() {
    return (first + second) / 2;
  }

  /**
   * Sums of normal equations of two means, and the means of values and of labels: labels are 1 for
   * a solo that is in the first group as the groups are, so that a deal of values less a supposed
   * difference is the deal of values less that difference times the deal of labels.
   */
  private static final class Fit {
    private double firsts;
    private double seconds;
    private double cross;
    private double firstValues;
    private double secondValues;
    private double firstLabels;
    private double secondLabels;

    void clear() {
      firsts = 0;
      seconds = 0;
      cross = 0;
      firstValues = 0;
      secondValues = 0;
      firstLabels = 0;
      secondLabels = 0;
    }

    double determinant() {
      return firsts * seconds - cross * cross;
    }

    double firstMean() {
      return (seconds * firstValues - cross * secondValues) / determinant();
    }

    double secondMean() {
      return (firsts * secondValues - cross * firstValues) / determinant();
    }

    double difference() {
      return firstMean() - secondMean();
    }

    double labelDifference() {
      return (seconds * firstLabels
              - cross * secondLabels
              - firsts * secondLabels
              + cross * firstLabels)
          / determinant();
    }

    /** Standard error of the difference in standard deviations of a usual solo. */
    double error() {
      return Math.sqrt((firsts + seconds + 2 * cross) / determinant());
    }
  }

  /** The solos, by player. */
  private record Units(
      double[][] values, double[][] weights, boolean[][] inFirst, int[] whole, int[] shared) {
    static Units of(double[] values, boolean[] inFirst, int[] player, double[] relative) {
      int players = Arrays.stream(player).max().orElseThrow() + 1;
      int[] counts = new int[players];
      for (int each : player) {
        counts[each]++;
      }
      double[][] of = new double[players][];
      double[][] weights = new double[players][];
      boolean[][] first = new boolean[players][];
      for (int j = 0; j < players; j++) {
        of[j] = new double[counts[j]];
        weights[j] = new double[counts[j]];
        first[j] = new boolean[counts[j]];
      }
      int[] next = new int[players];
      for (int i = 0; i < values.length; i++) {
        int j = player[i];
        of[j][next[j]] = values[i];
        weights[j][next[j]] = 1 / relative[i];
        first[j][next[j]++] = inFirst[i];
      }
      int[] whole = new int[players];
      int[] shared = new int[players];
      int wholes = 0;
      int shares = 0;
      for (int j = 0; j < players; j++) {
        boolean both = false;
        for (boolean each : first[j]) {
          both |= each != first[j][0];
        }
        if (both) {
          shared[shares++] = j;
        } else {
          whole[wholes++] = j;
        }
      }
      return new Units(
          of, weights, first, Arrays.copyOf(whole, wholes), Arrays.copyOf(shared, shares));
    }

    Dealt dealt() {
      return shared.length == 0
          ? Dealt.PLAYERS
          : whole.length == 0 ? Dealt.SOLOS_OF_PLAYERS : Dealt.BOTH;
    }

    Fit fit(double rho) {
      Fit fit = new Fit();
      for (int j = 0; j < values.length; j++) {
        add(fit, j, inFirst[j], rho);
      }
      return fit;
    }

    /** Adds a player whose solos are dealt so. */
    void add(Fit fit, int j, boolean[] dealt, double rho) {
      double w1 = 0;
      double w2 = 0;
      double y1 = 0;
      double y2 = 0;
      double x1 = 0;
      double x2 = 0;
      double[] value = values[j];
      double[] weight = weights[j];
      boolean[] label = inFirst[j];
      for (int i = 0; i < value.length; i++) {
        double w = weight[i];
        if (dealt[i]) {
          w1 += w;
          y1 += w * value[i];
          x1 += label[i] ? w : 0;
        } else {
          w2 += w;
          y2 += w * value[i];
          x2 += label[i] ? w : 0;
        }
      }
      double own = 1 - rho;
      double tie = rho / (own + rho * (w1 + w2));
      fit.firsts += w1 * (1 - tie * w1) / own;
      fit.seconds += w2 * (1 - tie * w2) / own;
      fit.cross -= tie * w1 * w2 / own;
      fit.firstValues += (y1 - tie * w1 * (y1 + y2)) / own;
      fit.secondValues += (y2 - tie * w2 * (y1 + y2)) / own;
      fit.firstLabels += (x1 - tie * w1 * (x1 + x2)) / own;
      fit.secondLabels += (x2 - tie * w2 * (x1 + x2)) / own;
    }

    /** Weighted sum of squares about the two means. */
    double squares(double rho, Fit fit) {
      double first = fit.firstMean();
      double second = fit.secondMean();
      double sum = 0;
      for (int j = 0; j < values.length; j++) {
        double omega = 0;
        double apart = 0;
        double squares = 0;
        for (int i = 0; i < values[j].length; i++) {
          double distance = values[j][i] - (inFirst[j][i] ? first : second);
          omega += weights[j][i];
          apart += weights[j][i] * distance;
          squares += weights[j][i] * distance * distance;
        }
        sum += (squares - rho / (1 - rho + rho * omega) * apart * apart) / (1 - rho);
      }
      return sum;
    }

    double halfLogDeterminant(double rho) {
      double sum = 0;
      for (double[] each : weights) {
        double omega = Arrays.stream(each).sum();
        sum += (each.length - 1) * Math.log(1 - rho) + Math.log(1 - rho + rho * omega);
      }
      return sum / 2;
    }

    int wholeFirsts() {
      int firsts = 0;
      for (int j : whole) {
        firsts += inFirst[j][0] ? 1 : 0;
      }
      return firsts;
    }

    int firsts(int j) {
      int firsts = 0;
      for (boolean each : inFirst[j]) {
        firsts += each ? 1 : 0;
      }
      return firsts;
    }
  }

  /**
   * The deals. A deal is as far apart as the groups are for every supposed difference from one end
   * to another, found by solving for it; where the deal is that of the groups or its mirror, for
   * all.
   */
  private static final class Deals {
    private final Units units;
    private final double rho;
    private final double difference;
    private final double error;
    private final Fit dealtFit = new Fit();

    /** What each whole player adds: information, values and labels. */
    private final double[] information;

    private final double[] values;
    private final double[] labels;
    private final boolean[][] dealt;
    private double[] lows = new double[64];
    private double[] highs = new double[64];
    private int count;
    private int asFar;

    Deals(Units units, double rho, Fit fit) {
      this.units = units;
      this.rho = rho;
      this.difference = fit.difference();
      this.error = fit.error();
      int n = units.whole.length;
      this.information = new double[n];
      this.values = new double[n];
      this.labels = new double[n];
      for (int i = 0; i < n; i++) {
        int j = units.whole[i];
        double omega = 0;
        double sum = 0;
        for (int k = 0; k < units.values[j].length; k++) {
          omega += units.weights[j][k];
          sum += units.weights[j][k] * units.values[j][k];
        }
        information[i] = 1 / (rho + (1 - rho) / omega);
        values[i] = information[i] * sum / omega;
        labels[i] = units.inFirst[j][0] ? information[i] : 0;
      }
      this.dealt = new boolean[units.shared.length][];
      for (int s = 0; s < dealt.length; s++) {
        dealt[s] = units.inFirst[units.shared[s]].clone();
      }
    }

    void run(long seed) {
      int firsts = units.wholeFirsts();
      double ways = ways(units.whole.length, firsts);
      for (int j : units.shared) {
        ways *= ways(units.values[j].length, units.firsts(j));
      }
      boolean[] wholes = new boolean[units.whole.length];
      if (ways <= USUAL_DEALS) {
        Arrays.fill(wholes, 0, firsts, true);
        do {
          everyShared(0, wholes);
        } while (advance(wholes));
        return;
      }
      for (int i = 0; i < wholes.length; i++) {
        wholes[i] = units.inFirst[units.whole[i]][0];
      }
      add(wholes);
      for (int replicate = 0; replicate < USUAL_DEALS; replicate++) {
        CounterRandom random = CounterRandom.of(seed, replicate, 0);
        shuffle(wholes, random);
        for (boolean[] each : dealt) {
          shuffle(each, random);
        }
        add(wholes);
      }
    }

    private void everyShared(int from, boolean[] wholes) {
      if (from == dealt.length) {
        add(wholes);
        return;
      }
      boolean[] own = dealt[from];
      int firsts = units.firsts(units.shared[from]);
      Arrays.fill(own, false);
      Arrays.fill(own, 0, firsts, true);
      do {
        everyShared(from + 1, wholes);
      } while (advance(own));
    }

    private static void shuffle(boolean[] places, CounterRandom random) {
      for (int i = places.length - 1; i > 0; i--) {
        int j = random.index(i + 1);
        boolean swapped = places[i];
        places[i] = places[j];
        places[j] = swapped;
      }
    }

    private void add(boolean[] wholes) {
      dealtFit.clear();
      for (int i = 0; i < wholes.length; i++) {
        if (wholes[i]) {
          dealtFit.firsts += information[i];
          dealtFit.firstValues += values[i];
          dealtFit.firstLabels += labels[i];
        } else {
          dealtFit.seconds += information[i];
          dealtFit.secondValues += values[i];
          dealtFit.secondLabels += labels[i];
        }
      }
      for (int s = 0; s < dealt.length; s++) {
        units.add(dealtFit, units.shared[s], dealt[s], rho);
      }
      double scale = error / dealtFit.error();
      double apart = scale * dealtFit.difference();
      double label = scale * dealtFit.labelDifference();
      if (count == lows.length) {
        lows = Arrays.copyOf(lows, 2 * count);
        highs = Arrays.copyOf(highs, 2 * count);
      }
      // |apart - label d| >= |difference - d|, where |label| is at most 1.
      double from = label > 1 - ROUNDING ? Double.NaN : (difference - apart) / (1 - label);
      double to = label < ROUNDING - 1 ? Double.NaN : (difference + apart) / (1 + label);
      if (Double.isNaN(from) || Double.isNaN(to)) {
        lows[count] = Double.NEGATIVE_INFINITY;
        highs[count] = Double.POSITIVE_INFINITY;
        asFar++;
      } else {
        lows[count] = Math.min(from, to);
        highs[count] = Math.max(from, to);
        // The same inequality at 0, so that p and interval agree to the last bit.
        asFar += lows[count] <= 0 && highs[count] >= 0 ? 1 : 0;
      }
      count++;
    }

    /** How many deals may lie beyond. */
    private int beyond() {
      return (int) Math.floor(LEVEL * count + ROUNDING);
    }

    double low() {
      double[] sorted = Arrays.copyOf(lows, count);
      Arrays.sort(sorted);
      double end = sorted[beyond()];
      return Double.isInfinite(end) ? Double.NaN : end;
    }

    double high() {
      double[] sorted = Arrays.copyOf(highs, count);
      Arrays.sort(sorted);
      double end = sorted[count - 1 - beyond()];
      return Double.isInfinite(end) ? Double.NaN : end;
    }

    double p() {
      return Double.isNaN(low()) ? Double.NaN : (double) asFar / count;
    }

    private static double ways(int n, int k) {
      double ways = 1;
      for (int i = 1; i <= k; i++) {
        ways *= (double) (n - k + i) / i;
      }
      return Math.rint(ways);
    }

    /** Moves to the next choice of the same number of places; false after the last. */
    private static boolean advance(boolean[] chosen) {
      int i = chosen.length - 1;
      int ones = 0;
      while (i >= 0 && chosen[i]) {
        chosen[i--] = false;
        ones++;
      }
      while (i >= 0 && !chosen[i]) {
        i--;
      }
      if (i < 0) {
        return false;
      }
      chosen[i] = false;
      Arrays.fill(chosen, i + 1, i + 2 + ones, true);
      return true;
    }
  }
}
