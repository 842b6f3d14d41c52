package phrasecensus.comparison;

import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import phrasecensus.music.norm.BenjaminiHochberg;

/**
 * A player of the corpus beside all the others.
 *
 * @param player name
 * @param statistics the compared statistics in which there was something to compare, in order of
 *     key
 */
public record PlayerApart(String player, List<Statistic> statistics) {
  public PlayerApart {
    statistics = List.copyOf(statistics);
  }

  /**
   * The player in one statistic.
   *
   * @param key in the catalogue
   * @param solos of the player with a value that rests on three phrases or more
   * @param outside how many of them lie outside the 5 to 95 % band of the others' solos
   * @param expected share of them expected there if all players were one
   * @param value median of the player's solos
   * @param others median of the others' solos
   * @param strength how far the player lies from the others in standard deviations of a usual solo,
   *     tempo taken out, times the reliability of so many phrases; null where not tested
   * @param side -1 if the median lies below the 5 to 95 % band, 1 if above, 0 inside
   * @param pValue could the player be one more of the others? null where it could not be tested
   */
  public record Statistic(
      String key,
      int solos,
      int outside,
      double expected,
      double value,
      double others,
      Double strength,
      int side,
      Double pValue) {}

  /** The most solos that count in any statistic. */
  public int solos() {
    return statistics.stream().mapToInt(Statistic::solos).max().orElse(0);
  }

  /** Values of single solos, over all statistics. */
  public int values() {
    return statistics.stream().mapToInt(Statistic::solos).sum();
  }

  /** How many of {@link #values()} lie outside the band of the others. */
  public int outside() {
    return statistics.stream().mapToInt(Statistic::outside).sum();
  }

  /** How many of {@link #values()} are expected outside if all players were one. */
  public double expectedOutside() {
    return statistics.stream().mapToDouble(each -> each.solos() * each.expected()).sum();
  }

  /** Statistics in which the median of the player's solos lies outside the band. */
  public int mediansOutside() {
    return (int) statistics.stream().filter(each -> each.side() != 0).count();
  }

  /** Statistics with a test. */
  public int tests() {
    return (int) statistics.stream().filter(each -> each.pValue() != null).count();
  }

  /** Statistics that differ at 5 % after adjustment over all of this player's. */
  public int clear() {
    double[] pValues =
        statistics.stream()
            .map(Statistic::pValue)
            .filter(Objects::nonNull)
            .mapToDouble(p -> p)
            .toArray();
    int clear = 0;
    for (double adjusted : BenjaminiHochberg.adjusted(pValues)) {
      clear += adjusted <= 0.05 ? 1 : 0;
    }
    return clear;
  }

  /**
   * How far out the player stands: the mean strength over all statistics, in standard deviations of
   * a usual solo.
   */
  public double distance() {
    return statistics.stream()
        .map(Statistic::strength)
        .filter(Objects::nonNull)
        .mapToDouble(strength -> strength)
        .average()
        .orElse(0);
  }

  /** The statistics that were tested, the strongest first, equal ones by key. */
  public List<Statistic> drivers() {
    return statistics.stream()
        .filter(each -> each.strength() != null)
        .sorted(
            Comparator.comparing(Statistic::strength, Comparator.reverseOrder())
                .thenComparing(Statistic::key))
        .toList();
  }

  /** The players, the farthest out first, equal ones by name. */
  public static List<PlayerApart> farthestFirst(List<PlayerApart> players) {
    return players.stream()
        .sorted(
            Comparator.comparingDouble(PlayerApart::distance)
                .reversed()
                .thenComparing(PlayerApart::player))
        .toList();
  }
}
