package phrasecensus.music.comparison;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import phrasecensus.music.norm.Quantiles;
import phrasecensus.music.norm.Sample;

/**
 * One player of a corpus in one statistic, held against the solos of all the others as a student
 * is.
 *
 * <p>The band of the others goes from their 5 % to their 95 % quantile, type 8, of values as
 * played. Of values from one continuous distribution, independent of each other, the expected share
 * beyond the lower end, which lies at place h = (n + 1/3) / 20 + 1/3 among n values, is h / (n +
 * 1), since the k-th of n values has k / (n + 1) of the distribution below it (H. A. David and H.
 * N. Nagaraja, Order Statistics, 2003, from memory), and the same at the upper end: a little over
 * 0.10 together. Where players differ it is more; where many values are equal, less.
 *
 * @param player name
 * @param solos of the player with a value that rests on three phrases or more
 * @param below how many of them lie below the band
 * @param above how many lie above it
 * @param expectedShare share of them expected outside the band where players do not differ
 * @param value median of these solos
 * @param others median of the others' solos
 * @param distance of the player from the centre of the others in standard deviations of a usual
 *     solo, tempo taken out where it is known; negative below; null where nothing can be tested
 * @param strength size of the distance times the reliability of so many phrases; null with it
 * @param side -1 if the median lies below the band, 1 if above, 0 if inside
 * @param pValue that a further player of the others would be as far out; null with {@code distance}
 */
public record HeldOutPlayer(
    String player,
    int solos,
    int below,
    int above,
    double expectedShare,
    double value,
    double others,
    Double distance,
    Double strength,
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
   * Every player in turn, in order of name. A player is left out who has no value that rests on
   * three phrases, or against whom fewer than {@link #LEAST_OTHERS} solos with one stand.
   *
   * @param shipped what is known of the statistic beforehand
   * @param solos of all players, in any order; those of players without a name are passed over
   */
  public static List<HeldOutPlayer> each(ShippedFigures shipped, List<ComparedSolo> solos) {
    List<ComparedSolo> defined =
        solos.stream()
            .filter(solo -> !solo.player().isEmpty() && !Double.isNaN(solo.on(shipped.scale())))
            .toList();
    Map<String, List<ComparedSolo>> byPlayer = new TreeMap<>();
    for (ComparedSolo solo : defined) {
      byPlayer.computeIfAbsent(solo.player(), name -> new ArrayList<>()).add(solo);
    }
    List<HeldOutPlayer> each = new ArrayList<>();
    byPlayer.forEach(
        (name, own) ->
            of(shipped, own, defined.stream().filter(solo -> !solo.player().equals(name)).toList())
                .ifPresent(each::add));
    return List.copyOf(each);
  }

  private static Optional<HeldOutPlayer> of(
      ShippedFigures shipped, List<ComparedSolo> own, List<ComparedSolo> others) {
    if (others.size() < LEAST_OTHERS) {
      return Optional.empty();
    }
    Sample theirs = sample(others);
    double low = Quantiles.of(theirs, LOWER);
    double high = Quantiles.of(theirs, UPPER);
    int below = 0;
    int above = 0;
    for (ComparedSolo solo : own) {
      below += solo.value() < low ? 1 : 0;
      above += solo.value() > high ? 1 : 0;
    }
    boolean tempo = own.stream().allMatch(ComparedSolo::hasTempo);
    StudentComparison comparison =
        StudentComparison.of(CorpusModel.of(shipped, others, tempo).whole(), own);
    Double distance = comparison.isTested() ? (Double) comparison.distance() : null;
    double median = Quantiles.of(sample(own), 0.5);
    return Optional.of(
        new HeldOutPlayer(
            own.get(0).player(),
            own.size(),
            below,
            above,
            expectedShare(others.size()),
            median,
            Quantiles.of(theirs, 0.5),
            distance,
            distance == null
                ? null
                : (Double)
                    (Math.abs(distance)
                        * Reliability.at(comparison.phrases(), shipped.phrasesForHalf())),
            median < low ? -1 : median > high ? 1 : 0,
            distance == null ? null : (Double) comparison.p()));
  }

  private static Sample sample(List<ComparedSolo> solos) {
    return Sample.of(solos.stream().mapToDouble(ComparedSolo::value).toArray());
  }

  /**
   * Share of further values expected outside the band of n values where all come from one
   * continuous distribution.
   *
   * @param n at least {@link #LEAST_OTHERS}
   */
  static double expectedShare(int n) {
    return 2 * ((n + 1.0 / 3) * LOWER + 1.0 / 3) / (n + 1);
  }
}
