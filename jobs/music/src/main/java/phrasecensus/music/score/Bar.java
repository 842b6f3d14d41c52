package phrasecensus.music.score;

import phrasecensus.music.time.Fraction;

/**
 * A bar as written.
 *
 * @param index place in the score from 0
 * @param number the file's text for it, as in {@code 12} or {@code X1}; never null
 * @param onset start, in quarter notes from the start of the solo
 * @param length in quarter notes; of the content or the metre, zero only for an empty bar without
 *     metre
 * @param metre metre in force; {@link Metre#FREE} when none
 * @param metricalOffset where the bar's first moment stands in a full bar of its metre: zero for a
 *     full bar, the missing part for a pickup, the length before it for the rest of a split bar
 * @param pickup true for a first bar shorter than its metre that leads into the first full bar
 * @param signs clef, repeats and endings
 */
public record Bar(
    int index,
    String number,
    Fraction onset,
    Fraction length,
    Metre metre,
    Fraction metricalOffset,
    boolean pickup,
    StaffSigns signs) {

  /** A bar without clef, repeat or ending. */
  public Bar(
      int index,
      String number,
      Fraction onset,
      Fraction length,
      Metre metre,
      Fraction metricalOffset,
      boolean pickup) {
    this(index, number, onset, length, metre, metricalOffset, pickup, StaffSigns.NONE);
  }

  /** The same bar with these signs. */
  public Bar with(StaffSigns other) {
    return new Bar(index, number, onset, length, metre, metricalOffset, pickup, other);
  }

  public Fraction end() {
    return onset.plus(length);
  }

  /** Place of a moment of this bar in the metre, in quarter notes from the bar line. */
  public Fraction positionOf(Fraction moment) {
    return moment.minus(onset).plus(metricalOffset);
  }
}
