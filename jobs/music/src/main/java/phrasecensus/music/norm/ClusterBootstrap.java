package phrasecensus.music.norm;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.IntStream;

/**
 * Bootstrap by clusters: whole solos are drawn with replacement, never single phrases, since the
 * phrases of a solo are not independent.
 *
 * <p>Solos of one player are alike too, so players are drawn where there are enough of them, and
 * the interval then speaks of the style and not only of the solos that happen to be there. What is
 * drawn by default was chosen by {@link CoverageSimulation}: from six players on, players with all
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
   * The usual interval of a statistic, empty where fewer than {@link #LEAST_SOLOS} solos are in a
   * group or the statistic is undefined too often: the expanded percentile interval, whose coverage
   * in small groups comes nearest to what it says ({@link CoverageSimulation}).
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
   * The usual interval of the mean over solos: what {@link #interval} gives for {@link
   * ResampledStatistic#mean}, but for rounding. Where whole players are drawn their sums are
   * enough, and nothing is left out in turn, so the cost is replicates times players, or times
   * solos where solos are drawn.
   *
   * @param soloValues one for each solo in the order of the clusters; NaN where undefined
   * @throws IllegalArgumentException if there are several groups or another number of values
   */
  public Optional<Interval> meanInterval(double[] soloValues) {
    if (groups.size() != 1 || soloValues.length != size) {
      throw new IllegalArgumentException(
          "Cannot give the interval of a mean: "
              + soloValues.length
              + " values for "
              + size
              + " solos in "
              + groups.size()
              + " groups");
    }
    if (size < LEAST_SOLOS) {
      return Optional.empty();
    }
    List<int[]> players = groups.get(0);
    int drawn = players.size();
    double[] sums = new double[drawn];
    int[] counts = new int[drawn];
    for (int player = 0; player < drawn; player++) {
      for (int solo : players.get(player)) {
        if (!Double.isNaN(soloValues[solo])) {
          sums[player] += soloValues[solo];
          counts[player]++;
        }
      }
    }
    ResampledStatistic mean = ResampledStatistic.mean(soloValues);
    double[] replicates = new double[USUAL_REPLICATES];
    for (int replicate = 0; replicate < replicates.length; replicate++) {
      if (draw == Draw.PLAYERS) {
        CounterRandom random = CounterRandom.of(seed, replicate, 0);
        double sum = 0;
        long count = 0;
        for (int i = 0; i < drawn; i++) {
          int player = drawn == 1 ? 0 : random.index(drawn);
          sum += sums[player];
          count += counts[player];
        }
        replicates[replicate] = sum / count;
      } else {
        replicates[replicate] = mean.of(weights(replicate));
      }
    }
    double[] defined =
        Arrays.stream(replicates).filter(value -> !Double.isNaN(value)).toArray();
    int[] once = new int[size];
    Arrays.fill(once, 1);
    return new BootstrapDistribution(
            mean.of(once),
            Sample.of(defined),
            replicates.length - defined.length,
            Double.NaN,
            draw == Draw.SOLOS ? size : drawn)
        .expandedPercentile(Interval.USUAL_CONFIDENCE);
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
