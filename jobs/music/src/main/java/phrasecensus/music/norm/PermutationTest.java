package phrasecensus.music.norm;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;

/**
 * Could the difference of two groups have come about by dealing the same players (or solos) into
 * the groups at random? Whole players or whole solos are dealt, so that what belongs together stays
 * together.
 *
 * <p>Two-sided by the size of the statistic. All ways of dealing are gone through when there are no
 * more than the replicates asked for; else each replicate shuffles with its own counter-based
 * stream ({@link CounterRandom}) and p = (1 + number at least as large) / (1 + replicates), so p is
 * never 0: B. Phipson and G. K. Smyth, "Permutation P-values should never be zero", Statistical
 * Applications in Genetics and Molecular Biology 9 (2010) article 39, doi:10.2202/1544-6115.1585.
 *
 * @param observed the statistic of the groups as they are
 * @param pValue in (0, 1]
 * @param deals ways of dealing looked at
 * @param complete true when these were all the ways there are
 * @param units players or solos dealt
 */
public record PermutationTest(
    double observed, double pValue, long deals, boolean complete, int units) {
  /** Replicates unless another number is asked for. */
  public static final int USUAL_REPLICATES = 2000;

  /** Statistics nearer to the observed one than this, relatively, are equal but for rounding. */
  private static final double ROUNDING = 1e-9;

  /** What is dealt into the groups. */
  public enum Unit {
    PLAYERS,
    SOLOS
  }

  /**
   * The test.
   *
   * @param solos of exactly two groups; the group that comes first in the alphabet is the first
   * @param unit what is dealt
   * @param statistic of the solos, told which of them, in the order given, are in the first group;
   *     not to keep or change what it is told
   * @param replicates at least 1
   * @param seed of the study
   * @throws IllegalArgumentException if there are not exactly two groups, if a player to be dealt
   *     is in both, or if the statistic of the groups as they are is not a number
   */
  public static PermutationTest of(
      List<Cluster> solos,
      Unit unit,
      ToDoubleFunction<boolean[]> statistic,
      int replicates,
      long seed) {
    if (replicates < 1) {
      throw new IllegalArgumentException("Invalid number of replicates: " + replicates);
    }
    List<String> groups = solos.stream().map(Cluster::group).distinct().sorted().toList();
    if (groups.size() != 2) {
      throw new IllegalArgumentException(
          "Cannot deal solos into two groups: there are " + groups.size());
    }
    // Sorted by what does not change when dealt, so the order given changes nothing.
    TreeMap<Cluster, List<Integer>> placesByUnit = new TreeMap<>();
    for (int i = 0; i < solos.size(); i++) {
      Cluster solo = solos.get(i);
      Cluster key = new Cluster("", solo.player(), unit == Unit.SOLOS ? solo.solo() : "");
      placesByUnit.computeIfAbsent(key, each -> new ArrayList<>()).add(i);
    }
    int n = placesByUnit.size();
    int[][] places = new int[n][];
    boolean[] labels = new boolean[n];
    int inFirst = 0;
    int next = 0;
    for (List<Integer> unitPlaces : placesByUnit.values()) {
      String group = solos.get(unitPlaces.get(0)).group();
      for (int place : unitPlaces) {
        if (!solos.get(place).group().equals(group)) {
          throw new IllegalArgumentException(
              "Cannot deal "
                  + (unit == Unit.PLAYERS ? "players: " : "solos: ")
                  + solos.get(place).player()
                  + " is in both groups");
        }
      }
      places[next] = unitPlaces.stream().mapToInt(Integer::intValue).toArray();
      labels[next] = group.equals(groups.get(0));
      inFirst += labels[next++] ? 1 : 0;
    }
    Deal deal = new Deal(places, new boolean[solos.size()], statistic);
    double observed = deal.statistic(labels);
    if (Double.isNaN(observed)) {
      throw new IllegalArgumentException(
          "Cannot test a difference: it is undefined for the groups as they are");
    }
    double limit = Math.abs(observed) * (1 - ROUNDING);
    double ways = ways(n, inFirst);
    if (ways <= replicates) {
      long large = 0;
      long dealt = 0;
      boolean[] dealtLabels = new boolean[n];
      Arrays.fill(dealtLabels, 0, inFirst, true);
      do {
        dealt++;
        large += Math.abs(deal.statistic(dealtLabels)) >= limit ? 1 : 0;
      } while (advance(dealtLabels));
      return new PermutationTest(observed, (double) large / dealt, dealt, true, n);
    }
    long large = 0;
    for (int replicate = 0; replicate < replicates; replicate++) {
      boolean[] shuffled = labels.clone();
      CounterRandom random = CounterRandom.of(seed, replicate, 0);
      for (int i = n - 1; i > 0; i--) {
        int j = random.index(i + 1);
        boolean swapped = shuffled[i];
        shuffled[i] = shuffled[j];
        shuffled[j] = swapped;
      }
      large += Math.abs(deal.statistic(shuffled)) >= limit ? 1 : 0;
    }
    return new PermutationTest(observed, (1.0 + large) / (1.0 + replicates), replicates, false, n);
  }

  /** The mean of the first group less that of the second; values in the order of the solos. */
  public static ToDoubleFunction<boolean[]> differenceOfMeans(double[] values) {
    double[] copy = values.clone();
    return first -> {
      double sumFirst = 0;
      double sumSecond = 0;
      int count = 0;
      for (int i = 0; i < copy.length; i++) {
        if (first[i]) {
          sumFirst += copy[i];
          count++;
        } else {
          sumSecond += copy[i];
        }
      }
      return sumFirst / count - sumSecond / (copy.length - count);
    };
  }

  /** Cliff's delta of the first group against the second; values in the order of the solos. */
  public static ToDoubleFunction<boolean[]> cliffsDelta(double[] values) {
    double[] copy = values.clone();
    Sample all = Sample.of(copy);
    // The sum of mid-ranks of the first group fixes delta, so a deal costs no sorting.
    double[] ranks = new double[copy.length];
    for (int i = 0; i < copy.length; i++) {
      ranks[i] = (all.countBelow(copy[i]) + 1 + all.countAtMost(copy[i])) / 2.0;
    }
    return first -> {
      double sum = 0;
      double n = 0;
      for (int i = 0; i < ranks.length; i++) {
        if (first[i]) {
          sum += ranks[i];
          n++;
        }
      }
      double m = ranks.length - n;
      return 2 * (sum - n * (n + 1) / 2) / (n * m) - 1;
    };
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
    int n = chosen.length;
    int ones = 0;
    int i = n - 1;
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

  /** Tells the statistic which solos are in the first group when units are. */
  private record Deal(int[][] places, boolean[] first, ToDoubleFunction<boolean[]> statistic) {
    double statistic(boolean[] labels) {
      for (int unit = 0; unit < labels.length; unit++) {
        for (int place : places[unit]) {
          first[place] = labels[unit];
        }
      }
      return statistic.applyAsDouble(first);
    }
  }
}
