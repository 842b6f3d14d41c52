package phrasecensus.music.norm;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.apache.commons.statistics.descriptive.Quantile.EstimationMethod;
import org.apache.commons.statistics.distribution.TDistribution;

/**
 * Bootstrap by clusters: whole solos are drawn with replacement, never single phrases, since the
 * phrases of a solo are not independent.
 *
 * <p>Solos of one player are alike too, so players are drawn where there are enough of them, and
 * the interval then speaks of the style and not only of the solos that happen to be there. What is
 * drawn by default was chosen by the simulation of intervals: from six players on, players with all
 * their solos; with three to five, players and then solos within each, which is wider; with fewer,
 * solos, and the interval then speaks of these players only. Each replicate draws from its own
 * counter-based stream ({@link CounterRandom}) over the clusters in sorted order: neither the order
 * of the solos nor the way the work is split changes a number. Sources: A. C. Davison and D. V.
 * Hinkley, "Bootstrap Methods and Their Application" (1997), section 3.8 on hierarchical data; B.
 * Efron and R. J. Tibshirani, "An Introduction to the Bootstrap" (1993) (both from memory).
 */
public final class ClusterBootstrap {
  /** Replicates unless another number is asked for. */
  public static final int USUAL_REPLICATES = 2000;

  /** With fewer solos than this no interval is told. */
  public static final int LEAST_SOLOS = 10;

  /** With fewer players than this, drawing players says nothing: solos are drawn instead. */
  public static final int LEAST_PLAYERS = 3;

  /** From this many players on, drawing them with all their solos gives the right width. */
  public static final int ENOUGH_PLAYERS = 6;

  /** Standard errors smaller than this, relatively, are none but for rounding. */
  private static final double ROUNDING = 1e-12;

  private static final double MOST_UNDEFINED = 0.05;

  /** Complete enumeration stops here: seven solos have 823,543 resamples. */
  private static final int MOST_SOLOS_ENUMERATED = 7;

  /** What is drawn with replacement. */
  public enum Draw {
    /** Solos of a group, whoever plays. */
    SOLOS,
    /** Players of a group, each with all their solos. */
    PLAYERS,
    /**
     * Players of a group, then solos within each player drawn: too wide where players differ
     * little, since the differences of solos count twice.
     */
    PLAYERS_THEN_SOLOS
  }

  private final Draw draw;
  private final long seed;
  private final int size;

  /** Group, player, solo: places in the caller's order. */
  private final List<List<int[]>> groups;

  private ClusterBootstrap(List<Cluster> clusters, Draw draw, long seed) {
    this.draw = draw;
    this.seed = seed;
    this.size = clusters.size();
    TreeMap<Cluster, Integer> sorted = new TreeMap<>();
    for (int i = 0; i < size; i++) {
      if (sorted.put(clusters.get(i), i) != null) {
        throw new IllegalArgumentException(
            "Cannot resample: solo " + clusters.get(i).solo() + " is there twice");
      }
    }
    TreeMap<String, TreeMap<String, List<Integer>>> nested = new TreeMap<>();
    sorted.forEach(
        (cluster, place) ->
            nested
                .computeIfAbsent(cluster.group(), group -> new TreeMap<>())
                .computeIfAbsent(
                    draw == Draw.SOLOS ? "" : cluster.player(), player -> new ArrayList<>())
                .add(place));
    this.groups =
        nested.values().stream()
            .map(
                players ->
                    players.values().stream()
                        .map(places -> places.stream().mapToInt(Integer::intValue).toArray())
                        .toList())
            .toList();
  }

  /**
   * A bootstrap of the solos named.
   *
   * @param clusters in the order in which weights are handed to statistics; that order changes no
   *     draw, but sums over solos round in it, so hand them sorted where the last digit matters
   * @param draw what is drawn
   * @param seed of the study
   * @throws IllegalArgumentException if a solo is there twice
   */
  public static ClusterBootstrap of(List<Cluster> clusters, Draw draw, long seed) {
    return new ClusterBootstrap(clusters, draw, seed);
  }

  /**
   * A bootstrap that draws what the number of players calls for, the group with the fewest
   * deciding: see above.
   */
  public static ClusterBootstrap of(List<Cluster> clusters, long seed) {
    ClusterBootstrap whole = new ClusterBootstrap(clusters, Draw.PLAYERS, seed);
    int players = whole.groups.stream().mapToInt(List::size).min().orElse(0);
    return players >= ENOUGH_PLAYERS
        ? whole
        : new ClusterBootstrap(
            clusters, players >= LEAST_PLAYERS ? Draw.PLAYERS_THEN_SOLOS : Draw.SOLOS, seed);
  }

  public Draw draw() {
    return draw;
  }

  /** How often each solo counts in a replicate; the sum of a group may differ from its size. */
  public int[] weights(int replicate) {
    int[] weights = new int[size];
    for (int group = 0; group < groups.size(); group++) {
      CounterRandom random = CounterRandom.of(seed, replicate, group);
      List<int[]> players = groups.get(group);
      int draws = players.size();
      for (int i = 0; i < draws; i++) {
        int[] solos = players.get(draws == 1 ? 0 : random.index(draws));
        for (int j = 0; j < solos.length; j++) {
          weights[draw == Draw.PLAYERS ? solos[j] : solos[random.index(solos.length)]]++;
        }
      }
    }
    return weights;
  }

  /** The distribution of a statistic over {@link #USUAL_REPLICATES} replicates. */
  public BootstrapDistribution distribution(ResampledStatistic statistic) {
    return distributions(List.of(statistic), USUAL_REPLICATES).get(0);
  }

  /**
   * The distributions of several statistics over the same replicates, in their order. Cost:
   * replicates times solos times statistics.
   *
   * @throws IllegalArgumentException if {@code replicates} is not positive
   */
  public List<BootstrapDistribution> distributions(
      List<ResampledStatistic> statistics, int replicates) {
    if (replicates < 1) {
      throw new IllegalArgumentException("Invalid number of replicates: " + replicates);
    }
    double[][] values = new double[statistics.size()][replicates];
    for (int replicate = 0; replicate < replicates; replicate++) {
      int[] weights = weights(replicate);
      for (int i = 0; i < values.length; i++) {
        values[i][replicate] = statistics.get(i).of(weights);
      }
    }
    List<BootstrapDistribution> distributions = new ArrayList<>();
    for (int i = 0; i < values.length; i++) {
      distributions.add(distribution(statistics.get(i), values[i]));
    }
    return List.copyOf(distributions);
  }

  /**
   * The distribution over every possible draw of solos, each equally likely: n^n of them.
   *
   * @throws IllegalArgumentException if players are drawn, there are several groups, or more than
   *     seven solos
   */
  public BootstrapDistribution enumeration(ResampledStatistic statistic) {
    if (draw != Draw.SOLOS || groups.size() != 1 || size > MOST_SOLOS_ENUMERATED) {
      throw new IllegalArgumentException(
          "Cannot enumerate the resamples of "
              + size
              + " solos: at most 7 of one group, no players");
    }
    int[] places = groups.get(0).get(0);
    int total = (int) Math.round(Math.pow(size, size));
    double[] values = new double[total];
    for (int number = 0; number < total; number++) {
      int[] weights = new int[size];
      for (int i = 0, rest = number; i < size; i++, rest /= size) {
        weights[places[rest % size]]++;
      }
      values[number] = statistic.of(weights);
    }
    return distribution(statistic, values);
  }

  /**
   * The interval of any statistic, empty where fewer than {@link #LEAST_SOLOS} solos are in a group
   * or the statistic is undefined too often: the expanded percentile interval, whose coverage in
   * small groups comes nearest to what it says (the simulation of intervals).
   */
  public Optional<Interval> interval(ResampledStatistic statistic) {
    boolean enough =
        groups.stream()
            .allMatch(players -> players.stream().mapToInt(s -> s.length).sum() >= LEAST_SOLOS);
    return enough
        ? distribution(statistic).expandedPercentile(Interval.USUAL_CONFIDENCE)
        : Optional.empty();
  }

  /**
   * The usual interval of the mean over solos.
   *
   * @param soloValues one for each solo in the order of the clusters; NaN where undefined
   * @return empty below {@link #LEAST_SOLOS} solos, or where fewer than two units have a value
   * @throws IllegalArgumentException if there are several groups or another number of values
   */
  public Optional<Interval> meanInterval(double[] soloValues) {
    double[] numerators = new double[soloValues.length];
    double[] denominators = new double[soloValues.length];
    for (int i = 0; i < soloValues.length; i++) {
      if (!Double.isNaN(soloValues[i])) {
        numerators[i] = soloValues[i];
        denominators[i] = 1;
      }
    }
    return ratioInterval(numerators, denominators);
  }

  /**
   * The usual interval of a ratio of sums over solos, as a share of all phrases is: studentized
   * bootstrap of the independent units, which are players or, below three players, solos, or the
   * jackknife with Student's t, whichever reaches further at either end. Each replicate is taken in
   * its own standard errors, so that skewness is allowed for. Below six units, or where more than
   * one replicate in twenty has no spread, it is the jackknife alone.
   *
   * <p>Sources: B. Efron, "Nonparametric standard errors and confidence intervals", Canadian
   * Journal of Statistics 9 (1981) 139-158, doi:10.2307/3314608; T. C. Hesterberg, "What teachers
   * should know about the bootstrap", The American Statistician 69 (2015) 371-386,
   * doi:10.1080/00031305.2015.1089789; J. W. Tukey 1958 for the jackknife (from memory). Coverage:
   * the simulation of intervals. Cost: replicates times units.
   *
   * @param numerators one for each solo in the order of the clusters
   * @param denominators the same; at least 0, 0 for a solo that does not count
   * @return empty below {@link #LEAST_SOLOS} solos, or where fewer than two units count
   * @throws IllegalArgumentException if there are several groups or another number of values
   */
  public Optional<Interval> ratioInterval(double[] numerators, double[] denominators) {
    if (groups.size() != 1 || numerators.length != size || denominators.length != size) {
      throw new IllegalArgumentException(
          "Cannot give the interval of a ratio: "
              + numerators.length
              + " values for "
              + size
              + " solos in "
              + groups.size()
              + " groups");
    }
    if (size < LEAST_SOLOS) {
      return Optional.empty();
    }
    List<double[]> units = new ArrayList<>();
    for (int[] player : groups.get(0)) {
      double[] together = new double[2];
      for (int solo : player) {
        if (draw == Draw.SOLOS) {
          together = new double[2];
        }
        together[0] += numerators[solo];
        together[1] += denominators[solo];
        if (draw == Draw.SOLOS && together[1] > 0) {
          units.add(together);
        }
      }
      if (draw != Draw.SOLOS && together[1] > 0) {
        units.add(together);
      }
    }
    return units.size() < 2 ? Optional.empty() : Optional.of(ratioInterval(units));
  }

  private Interval ratioInterval(List<double[]> units) {
    int drawn = units.size();
    double[] sums = units.stream().mapToDouble(unit -> unit[0]).toArray();
    double[] counts = units.stream().mapToDouble(unit -> unit[1]).toArray();
    int[] places = IntStream.range(0, drawn).toArray();
    double estimate = ratio(sums, counts, places);
    double error = standardError(sums, counts, places, estimate);
    if (!(error > ROUNDING * Math.abs(estimate))) {
      return new Interval(estimate, estimate, Interval.USUAL_CONFIDENCE);
    }
    double tail = (1 - Interval.USUAL_CONFIDENCE) / 2;
    double[] distances = new double[USUAL_REPLICATES];
    int defined = 0;
    if (drawn >= ENOUGH_PLAYERS) {
      for (int replicate = 0; replicate < USUAL_REPLICATES; replicate++) {
        CounterRandom random = CounterRandom.of(seed, replicate, 0);
        for (int i = 0; i < drawn; i++) {
          places[i] = random.index(drawn);
        }
        double value = ratio(sums, counts, places);
        double own = standardError(sums, counts, places, value);
        if (own > ROUNDING * Math.abs(estimate)) {
          distances[defined++] = (value - estimate) / own;
        }
      }
    }
    if (defined < (1 - MOST_UNDEFINED) * USUAL_REPLICATES) {
      return jackknife(sums, counts, estimate, tail);
    }
    Sample sample = Sample.of(Arrays.copyOf(distances, defined));
    Interval symmetric = jackknife(sums, counts, estimate, tail);
    return new Interval(
        Math.min(
            symmetric.lower(),
            estimate - Quantiles.of(sample, 1 - tail, EstimationMethod.HF7) * error),
        Math.max(
            symmetric.upper(), estimate - Quantiles.of(sample, tail, EstimationMethod.HF7) * error),
        Interval.USUAL_CONFIDENCE);
  }

  private static Interval jackknife(double[] sums, double[] counts, double estimate, double tail) {
    int drawn = sums.length;
    double sum = Arrays.stream(sums).sum();
    double count = Arrays.stream(counts).sum();
    double[] without = new double[drawn];
    for (int i = 0; i < drawn; i++) {
      without[i] = (sum - sums[i]) / (count - counts[i]);
    }
    double mean = Arrays.stream(without).average().orElseThrow();
    double squares = 0;
    for (double value : without) {
      squares += (value - mean) * (value - mean);
    }
    double half =
        Math.sqrt(squares * (drawn - 1) / drawn)
            * TDistribution.of(drawn - 1).inverseSurvivalProbability(tail);
    return new Interval(estimate - half, estimate + half, Interval.USUAL_CONFIDENCE);
  }

  private static double ratio(double[] sums, double[] counts, int[] places) {
    double sum = 0;
    double count = 0;
    for (int place : places) {
      sum += sums[place];
      count += counts[place];
    }
    return sum / count;
  }

  /** By linearization: the spread of what units lie above what the ratio expects of them. */
  private static double standardError(double[] sums, double[] counts, int[] places, double ratio) {
    double squares = 0;
    double count = 0;
    for (int place : places) {
      double distance = sums[place] - ratio * counts[place];
      squares += distance * distance;
      count += counts[place];
    }
    double n = places.length;
    return Math.sqrt(squares * n / (n - 1)) / count;
  }

  private BootstrapDistribution distribution(ResampledStatistic statistic, double[] values) {
    int[] once = new int[size];
    Arrays.fill(once, 1);
    List<Double> jackknife = new ArrayList<>();
    for (List<int[]> players : groups) {
      for (int[] solos : players) {
        if (draw == Draw.SOLOS) {
          for (int solo : solos) {
            jackknife.add(without(statistic, once, solo));
          }
        } else {
          jackknife.add(without(statistic, once, solos));
        }
      }
    }
    int units =
        groups.stream()
            .mapToInt(players -> draw == Draw.SOLOS ? players.get(0).length : players.size())
            .min()
            .orElse(0);
    return BootstrapDistribution.of(
        statistic.of(once),
        values,
        jackknife.stream().mapToDouble(Double::doubleValue).toArray(),
        units);
  }

  private static double without(ResampledStatistic statistic, int[] once, int... places) {
    IntStream.of(places).forEach(place -> once[place] = 0);
    double value = statistic.of(once);
    IntStream.of(places).forEach(place -> once[place] = 1);
    return value;
  }
}
