package phrasecensus.music.statistic;

import java.util.ArrayList;
import java.util.List;

/** Collects the values of one phrase or solo in the order of the catalogue. */
final class StatisticList {
  private final List<StatisticValue> values = new ArrayList<>(96);

  /** Adds a value; null makes it undefined, whatever {@code n} is. */
  void add(String key, Double value, int n) {
    values.add(value == null ? StatisticValue.undefined(key) : new StatisticValue(key, value, n));
  }

  void share(String key, int part, int whole) {
    values.add(StatisticValue.share(key, part, whole));
  }

  /** Adds a ratio of two totals; undefined unless {@code whole} is positive. */
  void ratio(String key, double part, double whole, int n) {
    add(key, whole > 0 ? part / whole : null, n);
  }

  void median(String key, Sample sample) {
    add(key, sample.median(), sample.size());
  }

  List<StatisticValue> values() {
    return List.copyOf(values);
  }
}
