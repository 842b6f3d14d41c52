package phrasecensus.music.comparison;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import phrasecensus.music.norm.CounterRandom;

/**
 * Two groups of solos beside each other in one statistic: how far their players' means lie apart,
 * and how far chance would bring them.
 *
 * <p>The difference is that of generalised least squares with the covariance of {@link GroupSums},
 * for the correlation that both groups together make likely; a player of both groups ties their
 * means together. Chance deals whole players, and, within each player who is in both groups, that
 * player's solos. Players of twelve solos and of two are not equally sure, so it is not their means
 * that are dealt: each is counted in its own standard deviations, the common mean is taken out, and
 * what is left is turned so that, whatever the numbers of solos, all are equally sure and no two go
 * together (residuals of such a kind are exchangeable where solos are normal and the correlation is
 * right: M.-H. Huh and M. Jhun, "Random permutation testing in multiple linear regression",
 * Communications in Statistics, Theory and Methods 30 (2001) 2023-2032, from memory; the turn is
 * the reflection of A. S. Householder, "Unitary triangularization of a nonsymmetric matrix",
 * Journal of the ACM 5 (1958) 339-342, from memory, that takes the common mean to the same share of
 * everybody). Where all players are equally sure nothing is turned, and whole players' means are
 * dealt as they are, whatever their distribution.
 *
 * <p>What is dealt at random is the difference less what it is held to be, so the interval is every
 * difference that would not be found at its level: it holds 0 exactly when p is above that level.
 * Permutation tests that are turned into intervals: P. H. Garthwaite, "Confidence intervals from
 * randomization tests", Biometrics 52 (1996) 1387-1393 (from memory); one is added to both counts
 * of random deals as by B. Phipson and G. K. Smyth, "Permutation P-values should never be zero",
 * Statistical Applications in Genetics and Molecular Biology 9 (2010) 39.
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
 * @param deals ways of dealing looked at; 0 where they are too few
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
    /**
     * Solos within each player: everybody is in both. Players are dealt too where they share their
     * solos out differently.
     */
    SOLOS_OF_PLAYERS,
    /** Players, and solos within those who are in both groups. */
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
    Deals deals = new Deals(units.strata(correlation));
    if (units.isRareEnough()) {
      deals.run(seed);
    }
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

  /** Sums of normal equations of two means. */
  private static final class Fit {
    private double firsts;
    private double seconds;
    private double cross;
    private double firstValues;
    private double secondValues;

    double determinant() {
      return firsts * seconds - cross * cross;
    }

    double firstMean() {
      return (seconds * firstValues - cross * secondValues) / determinant();
    }

    double secondMean() {
      return (firsts * secondValues - cross * firstValues) / determinant();
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
        double w1 = 0;
        double w2 = 0;
        double y1 = 0;
        double y2 = 0;
        for (int i = 0; i < values[j].length; i++) {
          double w = weights[j][i];
          if (inFirst[j][i]) {
            w1 += w;
            y1 += w * values[j][i];
          } else {
            w2 += w;
            y2 += w * values[j][i];
          }
        }
        double own = 1 - rho;
        double tie = rho / (own + rho * (w1 + w2));
        fit.firsts += w1 * (1 - tie * w1) / own;
        fit.seconds += w2 * (1 - tie * w2) / own;
        fit.cross -= tie * w1 * w2 / own;
        fit.firstValues += (y1 - tie * w1 * (y1 + y2)) / own;
        fit.secondValues += (y2 - tie * w2 * (y1 + y2)) / own;
      }
      return fit;
    }

    /** What is dealt: the players' means, then the solos of each player of both groups. */
    List<Stratum> strata(double rho) {
      int players = values.length;
      double[] root = new double[players];
      double[] mean = new double[players];
      double[] label = new double[players];
      double[] omega = new double[players];
      for (int j = 0; j < players; j++) {
        for (int i = 0; i < values[j].length; i++) {
          omega[j] += weights[j][i];
          mean[j] += weights[j][i] * values[j][i];
          label[j] += inFirst[j][i] ? weights[j][i] : 0;
        }
        mean[j] /= omega[j];
        label[j] /= omega[j];
        root[j] = 1 / Math.sqrt(rho + (1 - rho) / omega[j]);
      }
      List<Stratum> strata = new ArrayList<>();
      strata.add(Stratum.of(mean, label, root, 1));
      for (int j : shared) {
        double[] roots = Arrays.stream(weights[j]).map(Math::sqrt).toArray();
        double[] labels = new double[roots.length];
        for (int i = 0; i < labels.length; i++) {
          labels[i] = inFirst[j][i] ? 1 : 0;
        }
        strata.add(Stratum.of(values[j], labels, roots, 1 / Math.sqrt(1 - rho)));
      }
      return strata;
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

    /**
     * False where the groups as they are, and their mirror where there is one, are more of the ways
     * of dealing than the level: no p could be below it. Deals of the same players count as one
     * way, however their numbers of phrases differ.
     */
    boolean isRareEnough() {
      int wholeFirsts = 0;
      for (int j : whole) {
        wholeFirsts += inFirst[j][0] ? 1 : 0;
      }
      double ways = ways(whole.length, wholeFirsts);
      boolean mirrored = whole.length == 2 * wholeFirsts;
      for (int j : shared) {
        int firsts = 0;
        for (boolean each : inFirst[j]) {
          firsts += each ? 1 : 0;
        }
        ways *= ways(inFirst[j].length, firsts);
        mirrored &= inFirst[j].length == 2 * firsts;
      }
      return (mirrored ? 2 : 1) <= Math.floor(LEVEL * ways + ROUNDING);
    }
  }

  /** Ways of choosing k of n. */
  private static double ways(int n, int k) {
    double ways = 1;
    for (int i = 1; i <= k; i++) {
      ways *= (double) (n - k + i) / i;
    }
    return Math.rint(ways);
  }

  /**
   * What is dealt among each other. Labels are 1 for what is in the first group, 0 for what is in
   * the second; they are counted, freed from their mean and turned as values are, so that the
   * difference is the sum of products of both through the sum of squares of labels, and a deal of
   * values less a supposed difference is the deal of values less that difference times the deal of
   * labels.
   */
  private record Stratum(double[] values, double[] labels) {
    /**
     * @param root of what each tells, its weight: one through its standard deviation but for {@code
     *     factor}
     */
    static Stratum of(double[] values, double[] labels, double[] root, double factor) {
      return new Stratum(turned(values, root, factor), turned(labels, root, factor));
    }

    private static double[] turned(double[] values, double[] root, double factor) {
      int n = values.length;
      double all = 0;
      double sum = 0;
      for (int i = 0; i < n; i++) {
        all += root[i] * root[i];
        sum += root[i] * root[i] * values[i];
      }
      double mean = sum / all;
      double[] turned = new double[n];
      double[] normal = new double[n];
      double along = 0;
      double square = 0;
      for (int i = 0; i < n; i++) {
        turned[i] = factor * root[i] * (values[i] - mean);
        normal[i] = root[i] / Math.sqrt(all) - 1 / Math.sqrt(n);
        along += normal[i] * turned[i];
        square += normal[i] * normal[i];
      }
      if (square > NOTHING) {
        for (int i = 0; i < n; i++) {
          turned[i] -= 2 * along / square * normal[i];
        }
      }
      return turned;
    }
  }

  /**
   * The deals. A deal is as far apart as the groups are for every supposed difference from one end
   * to another, found by solving for it; where the deal is that of the groups or its mirror, for
   * all.
   */
  private static final class Deals {
    private final List<Stratum> strata;
    private final double information;
    private final double difference;

    /** Differences no greater than this are none but for rounding. */
    private final double rounding;

    private double[] lows = new double[64];
    private double[] highs = new double[64];
    private int count;
    private int asFar;

    Deals(List<Stratum> strata) {
      this.strata = strata;
      double squares = 0;
      double labels = 0;
      double products = 0;
      for (Stratum stratum : strata) {
        for (int i = 0; i < stratum.values.length; i++) {
          squares += stratum.values[i] * stratum.values[i];
          labels += stratum.labels[i] * stratum.labels[i];
          products += stratum.values[i] * stratum.labels[i];
        }
      }
      this.information = labels;
      this.difference = products / labels;
      this.rounding = ROUNDING * Math.sqrt(squares / labels);
    }

    void run(long seed) {
      List<double[]> dealt = new ArrayList<>();
      List<int[]> kinds = new ArrayList<>();
      double ways = 1;
      for (Stratum stratum : strata) {
        double[] sorted = stratum.labels.clone();
        Arrays.sort(sorted);
        int[] kind = new int[sorted.length];
        int same = 0;
        for (int i = 0; i < sorted.length; i++) {
          boolean isNew = i > 0 && sorted[i] - sorted[i - 1] > ROUNDING * Math.sqrt(information);
          kind[i] = i == 0 ? 0 : kind[i - 1] + (isNew ? 1 : 0);
          same = i == 0 || isNew ? 1 : same + 1;
          // The multinomial coefficient, one factor at a time.
          ways *= (i + 1.0) / same;
        }
        dealt.add(sorted);
        kinds.add(kind);
      }
      if (Math.rint(ways) <= USUAL_DEALS) {
        List<double[]> labels = dealt.stream().map(double[]::clone).toList();
        every(0, kinds, labels, dealt);
        return;
      }
      for (int s = 0; s < strata.size(); s++) {
        dealt.set(s, strata.get(s).labels.clone());
      }
      add(dealt);
      for (int replicate = 0; replicate < USUAL_DEALS; replicate++) {
        CounterRandom random = CounterRandom.of(seed, replicate, 0);
        for (double[] each : dealt) {
          shuffle(each, random);
        }
        add(dealt);
      }
    }

    /** Every way of dealing from a stratum on; labels of one kind are not told apart. */
    private void every(int from, List<int[]> kinds, List<double[]> labels, List<double[]> dealt) {
      if (from == strata.size()) {
        add(dealt);
        return;
      }
      int[] kind = kinds.get(from);
      double[] sorted = labels.get(from);
      int[] order = kind.clone();
      do {
        int[] next = new int[order.length];
        for (int i = kind.length - 1; i >= 0; i--) {
          next[kind[i]] = i;
        }
        for (int i = 0; i < order.length; i++) {
          dealt.get(from)[i] = sorted[next[order[i]]++];
        }
        every(from + 1, kinds, labels, dealt);
      } while (advance(order));
    }

    private static void shuffle(double[] labels, CounterRandom random) {
      for (int i = labels.length - 1; i > 0; i--) {
        int j = random.index(i + 1);
        double swapped = labels[i];
        labels[i] = labels[j];
        labels[j] = swapped;
      }
    }

    private void add(List<double[]> dealt) {
      double values = 0;
      double labels = 0;
      for (int s = 0; s < dealt.size(); s++) {
        Stratum stratum = strata.get(s);
        double[] each = dealt.get(s);
        for (int i = 0; i < each.length; i++) {
          values += each[i] * stratum.values[i];
          labels += each[i] * stratum.labels[i];
        }
      }
      double apart = values / information;
      double label = labels / information;
      if (count == lows.length) {
        lows = Arrays.copyOf(lows, 2 * count);
        highs = Arrays.copyOf(highs, 2 * count);
      }
      // |apart - label d| >= |difference - d|, where |label| is at most 1.
      if (Math.abs(label) > 1 - ROUNDING) {
        lows[count] = Double.NEGATIVE_INFINITY;
        highs[count] = Double.POSITIVE_INFINITY;
        asFar++;
      } else {
        double from = rounded(difference - apart) / (1 - label);
        double to = rounded(difference + apart) / (1 + label);
        lows[count] = Math.min(from, to);
        highs[count] = Math.max(from, to);
        // The same inequality at 0, so that p and interval agree to the last bit.
        asFar += lows[count] <= 0 && highs[count] >= 0 ? 1 : 0;
      }
      count++;
    }

    private double rounded(double distance) {
      return Math.abs(distance) <= rounding ? 0 : distance;
    }

    /** How many deals may lie beyond. */
    private int beyond() {
      return (int) Math.floor(LEVEL * count + ROUNDING);
    }

    double low() {
      return count == 0 ? Double.NaN : sorted(lows)[beyond()];
    }

    double high() {
      return count == 0 ? Double.NaN : sorted(highs)[count - 1 - beyond()];
    }

    private double[] sorted(double[] ends) {
      double[] sorted = Arrays.copyOf(ends, count);
      Arrays.sort(sorted);
      return sorted;
    }

    double p() {
      return count == 0 ? Double.NaN : (double) asFar / count;
    }

    /** Moves to the next order of things of some kinds; false after the last. */
    private static boolean advance(int[] order) {
      int i = order.length - 2;
      while (i >= 0 && order[i] >= order[i + 1]) {
        i--;
      }
      if (i < 0) {
        return false;
      }
      int j = order.length - 1;
      while (order[j] <= order[i]) {
        j--;
      }
      swap(order, i, j);
      for (int low = i + 1, high = order.length - 1; low < high; low++, high--) {
        swap(order, low, high);
      }
      return true;
    }

    private static void swap(int[] order, int i, int j) {
      int swapped = order[i];
      order[i] = order[j];
      order[j] = swapped;
    }
  }
}
