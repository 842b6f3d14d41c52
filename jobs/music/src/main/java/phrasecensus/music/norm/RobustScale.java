package phrasecensus.music.norm;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Puts the statistics of solos on one scale, so that solos can be compared over all of them: each
 * value less the median of the corpus, over its {@link Spread}. Statistics in which the corpus has
 * no spread are left out.
 *
 * <p>The distance of two solos is the mean absolute difference over the statistics both have. Our
 * own choice: it weighs every statistic alike, and one odd statistic moves it less than it would a
 * sum of squares.
 */
public final class RobustScale {
  /** Solos that share fewer statistics than this have no distance. */
  public static final int LEAST_SHARED = 3;

  /**
   * The zero and the unit of one statistic.
   *
   * @param median of the corpus
   * @param spread of the corpus as a robust standard deviation; positive
   */
  public record Unit(double median, double spread) {
    /** The unit of a sample; empty when it has no spread. */
    public static Optional<Unit> of(Sample sample) {
      Spread spread = Spread.of(sample);
      return spread.isNone()
          ? Optional.empty()
          : Optional.of(new Unit(sample.median(), spread.size()));
    }
  }

  private final SortedMap<String, Unit> units;

  private RobustScale(SortedMap<String, Unit> units) {
    this.units = units;
  }

  /**
   * What drives a distance.
   *
   * @param key of the statistic
   * @param difference first solo less second, in spreads of the corpus
   */
  public record Driver(String key, double difference) {}

  /**
   * How far two solos are apart.
   *
   * @param value mean absolute difference in spreads of the corpus, at least 0
   * @param shared number of statistics compared
   * @param drivers every statistic compared, the greatest difference first, equal ones by key
   */
  public record Distance(double value, int shared, List<Driver> drivers) {
    public Distance {
      drivers = List.copyOf(drivers);
    }
  }

  /**
   * A solo and its distance.
   *
   * @param solo which
   * @param distance from the solo asked about
   */
  public record Neighbour(String solo, Distance distance) {}

  /** The scale of a corpus: for each statistic the values of all its solos. */
  public static RobustScale of(Map<String, Sample> corpus) {
    SortedMap<String, Unit> units = new TreeMap<>();
    corpus.forEach((key, sample) -> Unit.of(sample).ifPresent(unit -> units.put(key, unit)));
    return new RobustScale(units);
  }

  /** The scale of these units, by statistic. */
  public static RobustScale ofUnits(Map<String, Unit> units) {
    return new RobustScale(new TreeMap<>(units));
  }


  /**
   * Where a value lies, in spreads above the median; empty when the corpus has no spread in this
   * statistic.
   */
  public Optional<Double> scaled(String key, double value) {
    Unit unit = units.get(key);
    return unit == null ? Optional.empty() : Optional.of((value - unit.median) / unit.spread);
  }

  /**
   * The distance of two solos, empty when they share fewer than {@link #LEAST_SHARED} statistics.
   *
   * @param first values by statistic; undefined ones absent
   * @param second the same
   */
  public Optional<Distance> distance(Map<String, Double> first, Map<String, Double> second) {
    List<Driver> drivers = new ArrayList<>();
    double sum = 0;
    for (Map.Entry<String, Unit> unit : units.entrySet()) {
      Double a = first.get(unit.getKey());
      Double b = second.get(unit.getKey());
      if (a != null && b != null) {
        double difference = (a - b) / unit.getValue().spread;
        drivers.add(new Driver(unit.getKey(), difference));
        sum += Math.abs(difference);
      }
    }
    if (drivers.size() < LEAST_SHARED) {
      return Optional.empty();
    }
    drivers.sort(
        Comparator.comparingDouble((Driver driver) -> -Math.abs(driver.difference))
            .thenComparing(Driver::key));
    return Optional.of(new Distance(sum / drivers.size(), drivers.size(), drivers));
  }

  /**
   * The solos of the corpus nearest to one solo, nearest first, equal ones by name.
   *
   * @param solo values by statistic
   * @param corpus values by statistic of each solo by name
   * @param most at most so many
   */
  public List<Neighbour> nearest(
      Map<String, Double> solo, Map<String, Map<String, Double>> corpus, int most) {
    List<Neighbour> neighbours = new ArrayList<>();
    corpus.forEach(
        (name, values) ->
            distance(solo, values)
                .ifPresent(distance -> neighbours.add(new Neighbour(name, distance))));
    neighbours.sort(
        Comparator.comparingDouble((Neighbour neighbour) -> neighbour.distance.value)
            .thenComparing(Neighbour::solo));
    return List.copyOf(neighbours.subList(0, Math.min(most, neighbours.size())));
  }
}
