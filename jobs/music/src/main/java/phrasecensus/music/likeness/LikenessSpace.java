package phrasecensus.music.likeness;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;
import java.util.stream.IntStream;

/**
 * The space in which solos lie over all compared statistics: whitened by the covariance of solos of
 * one player about their mean, so that statistics that go together do not count twice, and one in
 * which every player is at home everywhere counts little. Statistics in which solos of one player
 * do not vary are left out; a value that is missing is taken as its player's mean where covariances
 * are made, and leaves its statistic out where solos are compared.
 */
public final class LikenessSpace implements Serializable {
  private static final long serialVersionUID = 1L;

  /** Solos that share fewer statistics than this have no distance. */
  public static final int LEAST_SHARED = 3;

  /** How many solos more than players there must be for players to tell how solos vary. */
  static final int LEAST_FREEDOM = 10;

  /** No more solos are held against each other for {@link #unlike()}. */
  static final int MOST_HELD_AGAINST = 400;

  /** Of what solos vary about the mean. */
  public enum About {
    /** The player's. */
    PLAYER,
    /** The group's: too few players have more solos than one. */
    GROUP,
    /** The corpus': there are no groups with solos enough either. */
    CORPUS
  }

  private final About about;
  private final int[] kept;
  private final double[] deviation;
  private final double[][] covariance;
  private final ConcurrentHashMap<BitSet, Cholesky> parts = new ConcurrentHashMap<>();
  private double unlike = Double.NaN;

  private LikenessSpace(About about, int[] kept, double[] deviation, double[][] covariance) {
    this.about = about;
    this.kept = kept;
    this.deviation = deviation;
    this.covariance = covariance;
  }

  /**
   * The space of a corpus.
   *
   * @param solos in an order that does not depend on how they were read, for sums round
   * @return empty where the corpus has too few solos that differ
   */
  public static Optional<LikenessSpace> of(List<PlacedSolo> solos) {
    if (solos.isEmpty()) {
      return Optional.empty();
    }
    for (About about : About.values()) {
      Collection<List<PlacedSolo>> clusters = clusters(solos, about);
      int freedom = solos.size() - clusters.size();
      if (freedom >= (about == About.CORPUS ? LEAST_SHARED - 1 : LEAST_FREEDOM)) {
        return of(about, clusters).map(space -> space.holding(solos));
      }
    }
    return Optional.empty();
  }

  /** As {@link #of(List)}, without {@link #unlike()}, which takes the longest. */
  static Optional<LikenessSpace> ofPlayers(List<PlacedSolo> solos) {
    Collection<List<PlacedSolo>> clusters = clusters(solos, About.PLAYER);
    return solos.size() - clusters.size() < LEAST_FREEDOM
        ? Optional.empty()
        : of(About.PLAYER, clusters);
  }

  static Collection<List<PlacedSolo>> clusters(List<PlacedSolo> solos, About about) {
    Function<PlacedSolo, String> name =
        switch (about) {
          case PLAYER -> PlacedSolo::player;
          case GROUP -> PlacedSolo::group;
          case CORPUS -> solo -> "all";
        };
    Map<String, List<PlacedSolo>> named = new TreeMap<>();
    List<List<PlacedSolo>> clusters = new ArrayList<>();
    for (PlacedSolo solo : solos) {
      if (name.apply(solo).isEmpty()) {
        clusters.add(List.of(solo));
      } else {
        named.computeIfAbsent(name.apply(solo), key -> new ArrayList<>()).add(solo);
      }
    }
    clusters.addAll(0, named.values());
    return clusters;
  }

  private static Optional<LikenessSpace> of(About about, Collection<List<PlacedSolo>> clusters) {
    int size = clusters.iterator().next().get(0).places().length;
    List<double[]> residuals = new ArrayList<>();
    for (List<PlacedSolo> cluster : clusters) {
      if (cluster.size() > 1) {
        double[] mean = mean(cluster, new double[size]);
        double unbiased = Math.sqrt(cluster.size() / (cluster.size() - 1.0));
        for (PlacedSolo solo : cluster) {
          double[] residual = new double[size];
          for (int k = 0; k < size; k++) {
            residual[k] =
                Double.isNaN(solo.places()[k]) ? 0 : (solo.places()[k] - mean[k]) * unbiased;
          }
          residuals.add(residual);
        }
      }
    }
    double[] deviations = new double[size];
    for (double[] residual : residuals) {
      for (int k = 0; k < size; k++) {
        deviations[k] += residual[k] * residual[k];
      }
    }
    // What is left of a constant by rounding is no variation.
    double rounding = 1e-18 * residuals.size();
    int[] kept = IntStream.range(0, size).filter(k -> deviations[k] > rounding).toArray();
    if (kept.length < LEAST_SHARED) {
      return Optional.empty();
    }
    double[] deviation =
        Arrays.stream(kept).mapToDouble(k -> Math.sqrt(deviations[k] / residuals.size())).toArray();
    List<double[]> rows = new ArrayList<>();
    for (double[] residual : residuals) {
      double[] row = new double[kept.length];
      for (int k = 0; k < row.length; k++) {
        row[k] = residual[kept[k]] / deviation[k];
      }
      rows.add(row);
    }
    return Optional.of(
        new LikenessSpace(about, kept, deviation, ShrunkCovariance.of(rows).matrix()));
  }

  /**
   * Mean place of solos in every statistic.
   *
   * @param otherwise where none of them has a value
   */
  static double[] mean(List<PlacedSolo> solos, double[] otherwise) {
    double[] sums = new double[otherwise.length];
    int[] counts = new int[sums.length];
    for (PlacedSolo solo : solos) {
      for (int k = 0; k < sums.length; k++) {
        if (!Double.isNaN(solo.places()[k])) {
          sums[k] += solo.places()[k];
          counts[k]++;
        }
      }
    }
    for (int k = 0; k < sums.length; k++) {
      sums[k] = counts[k] == 0 ? otherwise[k] : sums[k] / counts[k];
    }
    return sums;
  }

  /** Finds how far solos of different groups lie apart. */
  private LikenessSpace holding(List<PlacedSolo> solos) {
    int most = Math.min(solos.size(), MOST_HELD_AGAINST);
    List<PlacedSolo> some = new ArrayList<>();
    for (int i = 0; i < most; i++) {
      // Evenly spaced, so that every part of the corpus is heard however it is named.
      some.add(solos.get((int) ((long) i * solos.size() / most)));
    }
    boolean groups =
        some.stream().map(PlacedSolo::group).filter(name -> !name.isEmpty()).distinct().count() > 1;
    List<Double> distances = new ArrayList<>();
    for (int i = 0; i < most; i++) {
      for (int j = 0; j < i; j++) {
        if (differ(some.get(i), some.get(j), groups)) {
          squared(some.get(i).places(), some.get(j).places())
              .ifPresent(each -> distances.add(Math.sqrt(each.value / 2 / each.shared)));
        }
      }
    }
    double[] sorted = distances.stream().mapToDouble(each -> each).sorted().toArray();
    if (sorted.length > 0) {
      unlike = (sorted[(sorted.length - 1) / 2] + sorted[sorted.length / 2]) / 2;
    }
    return this;
  }

  private static boolean differ(PlacedSolo first, PlacedSolo second, boolean groups) {
    String one = groups ? first.group() : first.player();
    String other = groups ? second.group() : second.player();
    return !one.equals(other) && !one.isEmpty() && !other.isEmpty();
  }

  /** Of what solos vary about the mean. */
  public About about() {
    return about;
  }

  /**
   * Median distance of two solos of different groups, or where there are no groups, by different
   * players; a solo whose nearest one lies farther is like none. Of larger corpora 400 solos are
   * taken, evenly spaced. NaN where there are neither groups nor players.
   */
  public double unlike() {
    return unlike;
  }

  /** Places in the list of statistics of those that count. */
  int[] kept() {
    return kept;
  }

  /** Standard deviation of solos about the mean in each statistic that counts. */
  double[] deviation() {
    return deviation;
  }

  /** Covariance of solos about the mean in the statistics that count, each over its deviation. */
  double[][] covariance() {
    return covariance;
  }

  /**
   * What drives a distance.
   *
   * @param statistic its place in the list of statistics
   * @param difference first less second, in standard deviations of solos about the mean
   */
  public record Driver(int statistic, double difference) {}

  /**
   * How far two places are apart.
   *
   * @param value at least 0; 1 is usual for two solos of one player, or for a solo and the middle
   *     of its player's
   * @param shared number of statistics that both have
   * @param drivers every one of them, the greatest difference first, equal ones in their order
   */
  public record Distance(double value, int shared, List<Driver> drivers) {
    public Distance {
      drivers = List.copyOf(drivers);
    }
  }

  /** Distance of two solos; empty when they share fewer than {@link #LEAST_SHARED} statistics. */
  public Optional<Distance> ofSolos(double[] first, double[] second) {
    return distance(first, second, 2);
  }

  /** Distance of a solo from the mean of many; empty as in {@link #ofSolos}. */
  public Optional<Distance> fromMean(double[] solo, double[] mean) {
    return distance(solo, mean, 1);
  }

  private Optional<Distance> distance(double[] first, double[] second, int varying) {
    return squared(first, second)
        .map(
            squared ->
                new Distance(
                    Math.sqrt(squared.value / varying / squared.shared),
                    squared.shared,
                    drivers(first, second)));
  }

  private List<Driver> drivers(double[] first, double[] second) {
    List<Driver> drivers = new ArrayList<>();
    for (int k = 0; k < kept.length; k++) {
      double difference = (first[kept[k]] - second[kept[k]]) / deviation[k];
      if (!Double.isNaN(difference)) {
        drivers.add(new Driver(kept[k], difference));
      }
    }
    drivers.sort(Comparator.comparingDouble(driver -> -Math.abs(driver.difference())));
    return drivers;
  }

  private record Squared(double value, int shared) {}

  private Optional<Squared> squared(double[] first, double[] second) {
    BitSet shared = new BitSet();
    double[] differences = new double[kept.length];
    for (int k = 0; k < kept.length; k++) {
      double difference = (first[kept[k]] - second[kept[k]]) / deviation[k];
      if (!Double.isNaN(difference)) {
        differences[shared.cardinality()] = difference;
        shared.set(k);
      }
    }
    int size = shared.cardinality();
    if (size < LEAST_SHARED) {
      return Optional.empty();
    }
    return Optional.of(
        new Squared(part(shared).squaredLength(Arrays.copyOf(differences, size)), size));
  }

  private Cholesky part(BitSet shared) {
    return parts.computeIfAbsent(
        shared, some -> Cholesky.of(part(covariance, some.stream().toArray())));
  }

  static double[][] part(double[][] matrix, int[] places) {
    double[][] part = new double[places.length][places.length];
    for (int i = 0; i < places.length; i++) {
      for (int j = 0; j < places.length; j++) {
        part[i][j] = matrix[places[i]][places[j]];
      }
    }
    return part;
  }
}
