package phrasecensus.music.statistic;

import java.util.List;
import phrasecensus.music.rest.Stretch;
import phrasecensus.music.rest.Stretches;
import phrasecensus.music.time.Fraction;

/**
 * How long a line goes on between breaths.
 *
 * @param count stretches; 0 when one of them has no length in bars
 * @param scraps stretches shorter than {@link Stretches#SHORTEST_PHRASE_BARS}
 * @param longest the longest in bars; null without any
 * @param bars of all stretches
 * @param unbrokenBars of stretches longer than {@link Stretches#LONGEST_PHRASE_BARS}
 * @param scrapBars of the scraps
 */
record StretchCounts(
    int count, int scraps, Double longest, double bars, double unbrokenBars, double scrapBars) {
  private static final double ROUNDING = 1e-9;
  private static final StretchCounts NONE = new StretchCounts(0, 0, null, 0, 0, 0);

  /** Lengths are compared exactly and added up in the order of the solo. */
  static StretchCounts of(List<Stretch> stretches) {
    double all = 0;
    double unbroken = 0;
    double inScraps = 0;
    Fraction longest = Fraction.ZERO;
    int scraps = 0;
    for (Stretch stretch : stretches) {
      Fraction bars = stretch.bars();
      if (bars == null) {
        return NONE;
      }
      all += bars.toDouble();
      longest = Fraction.larger(longest, bars);
      if (bars.isAfter(Stretches.LONGEST_PHRASE_BARS)) {
        unbroken += bars.toDouble();
      } else if (bars.isBefore(Stretches.SHORTEST_PHRASE_BARS)) {
        inScraps += bars.toDouble();
        scraps++;
      }
    }
    return stretches.isEmpty()
        ? NONE
        : new StretchCounts(stretches.size(), scraps, longest.toDouble(), all, unbroken, inScraps);
  }

  /** Bars of all stretches, a bar that is begun counted; what rounding added to a whole is none. */
  int barsBegun() {
    return (int) Math.ceil(bars - ROUNDING);
  }
}
