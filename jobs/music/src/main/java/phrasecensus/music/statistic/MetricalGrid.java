package phrasecensus.music.statistic;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.music.score.Metre;
import phrasecensus.music.time.Fraction;

/**
 * Metrical weights of the places in a bar: 0 at the bar line and one less at each finer level
 * (levels as in Longuet-Higgins and Lee 1984, from memory).
 *
 * <p>Bars of an even number of beats are halved as long as that leaves whole beats, then divided
 * into beats; a simple beat is halved twice, a compound beat divided in three and then halved. So
 * the eight eighths of 4/4 weigh 0 -3 -2 -3 -1 -3 -2 -3, 3/4 has beats at -1, and 6/8 its second
 * beat at -1 and eighths at -2.
 *
 * <p>Our own conventions: the triplet places of a simple beat weigh as its half; anything between
 * the finest places weighs one less than they do.
 */
public final class MetricalGrid {
  private final Fraction barLength;
  private final Fraction triplet;
  private final List<Fraction> periods;
  private final int tripletWeight;

  /**
   * @throws IllegalArgumentException for {@link Metre#FREE}
   */
  public MetricalGrid(Metre metre) {
    if (metre.isFree()) {
      throw new IllegalArgumentException("Cannot weigh places in a bar: no metre");
    }
    this.barLength = metre.barLength();
    List<Fraction> levels = new ArrayList<>();
    levels.add(barLength);
    Fraction beats = metre.beats();
    Fraction beat = metre.beatLength();
    Fraction span = beats;
    while (span.isWhole() && span.numerator() % 2 == 0 && span.numerator() > 2) {
      span = span.times(Fraction.HALF);
      levels.add(beat.times(span));
    }
    if (beats.compareTo(Fraction.ONE) > 0) {
      levels.add(beat);
    }
    int beatWeight = 1 - levels.size();
    if (beat.numerator() == 3) {
      levels.add(beat.times(Fraction.of(1, 3)));
      levels.add(beat.times(Fraction.of(1, 6)));
      this.triplet = null;
    } else {
      levels.add(beat.times(Fraction.HALF));
      levels.add(beat.times(Fraction.of(1, 4)));
      this.triplet = beat.times(Fraction.of(1, 3));
    }
    this.tripletWeight = beatWeight - 1;
    this.periods = List.copyOf(levels);
  }

  /**
   * Weight of a place.
   *
   * @param position in quarter notes from the bar line, at least 0
   * @return 0 at the bar line, less at weaker places
   */
  public int weight(Fraction position) {
    for (int level = 0; level < periods.size(); level++) {
      if (isMultiple(position, periods.get(level))) {
        return -level;
      }
    }
    return triplet != null && isMultiple(position, triplet) ? tripletWeight : -periods.size();
  }

  /**
   * How much stronger the strongest place of the grid after one onset and before the next is than
   * the place of the first.
   *
   * @param position of the onset, in quarter notes from the bar line
   * @param next of the next onset, from the same bar line, so beyond the bar's length in a later
   *     bar; null when none follows, which leaves the next bar line silent
   * @return at least 0
   */
  int excess(Fraction position, Fraction next) {
    int weight = weight(position);
    if (weight == 0) {
      return 0;
    }
    if (next == null) {
      return -weight;
    }
    for (int level = 0; -level > weight && level < periods.size(); level++) {
      if (isBetween(periods.get(level), position, next)) {
        return -level - weight;
      }
    }
    return 0;
  }

  private static boolean isMultiple(Fraction position, Fraction period) {
    return Math.multiplyExact(position.numerator(), period.denominator())
            % Math.multiplyExact(position.denominator(), period.numerator())
        == 0;
  }

  /** True when a multiple of the period lies between, ends not counted. */
  private static boolean isBetween(Fraction period, Fraction from, Fraction to) {
    long passed =
        Math.floorDiv(
            Math.multiplyExact(from.numerator(), period.denominator()),
            Math.multiplyExact(from.denominator(), period.numerator()));
    long nextNumerator = Math.multiplyExact(period.numerator(), passed + 1);
    return Math.multiplyExact(nextNumerator, to.denominator())
        < Math.multiplyExact(to.numerator(), period.denominator());
  }
}
