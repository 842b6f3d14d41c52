package phrasecensus.music.norm;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * One player of a group in one statistic, held against the solos of all the others as a student is.
 *
 * <p>The band of the others goes from their 5 % to their 95 % quantile, type 8. Of values from one
 * continuous distribution, independent of each other, the expected share beyond the lower end, which
 * lies at place h = (n + 1/3) / 20 + 1/3 among n values, is h / (n + 1), since the k-th of n values
 * has k / (n + 1) of the distribution below it (H. A. David and H. N. Nagaraja, Order Statistics,
 * 2003, from memory), and the same at the upper end: a little over 0.10 together. Where players
 * differ it is more; where many values are equal, less.
 *
 * @param player name
 * @param solos of the player with a value that rests on three phrases or more
 * @param below how many of them lie below the band
 * @param above how many lie above it
 * @param expectedShare share of them expected outside the band where players do not differ
 * @param departure of the median of the player's solos from the others
 * @param side -1 if that median lies below the band, 1 if above, 0 if inside
 * @param pValue of {@link ExchangeabilityTest}; null where there is no ground for a test
 */
public record HeldOutPlayer(
    String player,
    int solos,
    int below,
    int above,
    double expectedShare,
    Departure departure,
    int side,
    Double pValue) {
  /**
   * Fewer other values than this have no band here: one in twenty is beyond either end of it. Norms
   * show these quantiles only from 59 values on, with an interval; here nobody reads them one by
   * one.
   */
  public static final int LEAST_OTHERS = 20;

  private static final double LOWER = 0.05;
  private static final double UPPER = 0.95;

  /**
   * A solo of the group.
   *
   * @param value its player and its value; the player's name is not {@link
   *     NormValue#UNKNOWN_PLAYER}
   * @param n how many of its phrases the value rests on, or of the things counted if they are fewer
   */
  public record Solo(NormValue value, int n) {}

  /**
   * Every player in turn, in order of name. A player is left out who has no value, or values
   * that rest on fewer than three phrases in all, or against whom fewer than {@link #LEAST_OTHERS}
   * solos with a value stand.
   *
   * @param key of the statistic
   * @param facet of the statistic
   * @param solos of all players, in any order
   */
  public static List<HeldOutPlayer> each(String key, String facet, List<Solo> solos) {
    Map<String, List<Solo>> byPlayer = new TreeMap<>();
    for (Solo solo : solos) {
      byPlayer.computeIfAbsent(solo.value.player(), name -> new ArrayList<>()).add(solo);
    }
    List<HeldOutPlayer> each = new ArrayList<>();
    byPlayer.forEach(
        (name, own) -> {
          List<NormValue> others =
              solos.stream()
                  .map(Solo::value)
                  .filter(value -> !value.player().equals(name))
                  .toList();
          of(key, facet, own, others).ifPresent(each::add);
        });
    return List.copyOf(each);
  }

  private static Optional<HeldOutPlayer> of(
      String key, String facet, List<Solo> own, List<NormValue> others) {
    Norm norm = Norms.of(others);
    List<Solo> defined = own.stream().filter(solo -> solo.value.value() != null).toList();
    int phrases = defined.stream().mapToInt(Solo::n).sum();
    if (norm.n() < LEAST_OTHERS
        || defined.isEmpty()
        || phrases < StudentValue.LEAST_PHRASES) {
      return Optional.empty();
    }
    Sample values = Sample.of(defined.stream().map(solo -> solo.value.value()).toList());
    double low = Quantiles.of(norm.sample(), LOWER);
    double high = Quantiles.of(norm.sample(), UPPER);
    int below = 0;
    int above = 0;
    int counted = 0;
    for (Solo solo : defined) {
      if (solo.n >= StudentValue.LEAST_PHRASES) {
        double value = solo.value.value();
        below += value < low ? 1 : 0;
        above += value > high ? 1 : 0;
        counted++;
      }
    }
    double median = Quantiles.of(values, 0.5);
    return Optional.of(
        new HeldOutPlayer(
            own.get(0).value.player(),
            counted,
            below,
            above,
            expectedShare(norm.n()),
            Departures.of(new StudentValue(key, facet, median, phrases, norm)),
            median < low ? -1 : median > high ? 1 : 0,
            ExchangeabilityTest.Group.of(others)
                .map(group -> group.test(values).pValue())
                .orElse(null)));
  }

  /**
   * Share of further values expected outside the band of n values where all come from one continuous
   * distribution.
   *
   * @param n at least {@link #LEAST_OTHERS}
   */
  static double expectedShare(int n) {
    return 2 * ((n + 1.0 / 3) * LOWER + 1.0 / 3) / (n + 1);
  }
}
