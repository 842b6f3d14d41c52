package phrasecensus.music.norm;

import java.util.List;
import java.util.Optional;

/**
 * The distribution of one statistic over a group of solos. It describes these transcriptions; it is
 * no target and no judgement of a player.
 *
 * <p>A quantile that the group is too small for is null, see {@link NormLevel}. Made by {@link
 * Norms#of}.
 *
 * @param sample the defined values
 * @param undefinedCount solos of the group for which the statistic is undefined
 * @param playerCount different players among the solos with a value; all players without a name
 *     count as one
 * @param min least value; null when no value is defined, like the next three
 * @param max greatest value
 * @param mean arithmetic mean over solos
 * @param medianAbsoluteDeviation median distance from the median, not scaled
 * @param p05 5 % quantile, Hyndman-Fan type 8, like the others
 * @param p10 first decile
 * @param p25 lower end of the middle band
 * @param p50 median
 * @param p75 upper end of the middle band
 * @param p90 last decile
 * @param p95 95 % quantile
 * @param designEffect how many times larger variances are because solos of a player are alike; at
 *     least 1; estimated, and so only roughly known with few players
 * @param intervals 95 % order-statistic interval of each quantile shown, allowing for the design
 *     effect, in ascending order of quantile; a quantile is missing here when the solos of too few
 *     players are too much alike for one
 * @param level what the group is large enough to show
 * @param dominantPlayer the player of more than half the values; null when there is none
 * @param dominantShare the share of that player, in (0.5, 1]; null when there is none
 */
public record Norm(
    Sample sample,
    int undefinedCount,
    int playerCount,
    Double min,
    Double max,
    Double mean,
    Double medianAbsoluteDeviation,
    Double p05,
    Double p10,
    Double p25,
    Double p50,
    Double p75,
    Double p90,
    Double p95,
    double designEffect,
    List<QuantileInterval> intervals,
    NormLevel level,
    String dominantPlayer,
    Double dominantShare) {
  /** Groups of fewer players than this say more about the players than about a style. */
  public static final int LEAST_PLAYERS = 3;

  public Norm {
    intervals = List.copyOf(intervals);
  }

  /** How many solos have a value. */
  public int n() {
    return sample.size();
  }

  /** True when the group has fewer than three players: then name it after them. */
  public boolean fewPlayers() {
    return playerCount < LEAST_PLAYERS;
  }

  /**
   * True when the quartiles are shown, so that a value can be inside or outside the middle half.
   */
  public boolean hasMiddleBand() {
    return level.reaches(NormLevel.QUARTILES);
  }

  /** The interval of a quantile shown, empty for one that is not. */
  public Optional<QuantileInterval> interval(double probability) {
    return intervals.stream().filter(each -> each.probability() == probability).findFirst();
  }

  /**
   * What a reader has to know before trusting the norm, in one sentence; empty when there is
   * nothing to say.
   */
  public Optional<String> caution() {
    if (sample.isEmpty()) {
      return Optional.of("No solo of this group has a value.");
    }
    if (dominantPlayer != null) {
      return Optional.of(
          "This group is mostly "
              + dominantPlayer
              + " ("
              + Math.round(dominantShare * n())
              + " of "
              + n()
              + " solos): read it as that player's norm.");
    }
    if (fewPlayers()) {
      return Optional.of(
          playerCount == 1
              ? "This group has one player: read it as that player's norm."
              : "This group has " + playerCount + " players: read it as theirs.");
    }
    return Optional.empty();
  }

  /** The spread of the group in units of a standard deviation, robustly, and what it rests on. */
  public Spread spread() {
    return Spread.of(sample);
  }
}
