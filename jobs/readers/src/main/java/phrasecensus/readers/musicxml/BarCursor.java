package phrasecensus.readers.musicxml;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.music.time.Fraction;

/**
 * The place in a bar that notes, {@code backup} and {@code forward} move, in quarter notes.
 *
 * <p>Programs write tuplets in whole divisions, so that a triplet of eighths may last 85, 85 and 86
 * of 256. The cursor then moves by the exact thirds and remembers where the file's own count
 * stands, so that a later step back to the same count finds the exact place.
 */
final class BarCursor {
  private Fraction at = Fraction.ZERO;
  private Fraction high = Fraction.ZERO;
  private Fraction notesEnd = Fraction.ZERO;
  private boolean skipped;

  /** How far the file's count is ahead of the exact place. */
  private Fraction ahead = Fraction.ZERO;

  private int roundings;
  private final List<Fraction> counted = new ArrayList<>();
  private final List<Fraction> exact = new ArrayList<>();

  void startBar() {
    at = Fraction.ZERO;
    high = Fraction.ZERO;
    notesEnd = Fraction.ZERO;
    skipped = false;
    ahead = Fraction.ZERO;
    roundings = 0;
    counted.clear();
    exact.clear();
  }

  Fraction at() {
    return at;
  }

  /** The furthest place that anything has reached. */
  Fraction high() {
    return high;
  }

  /** The furthest place that a note or rest has reached. */
  Fraction notesEnd() {
    return skipped ? notesEnd : high;
  }

  /** How many notes so far were longer or shorter in the file than they are. */
  int roundings() {
    return roundings;
  }

  /**
   * Moves on by a note or rest.
   *
   * @param length its exact length
   * @param inFile the length that the file's duration gives
   */
  void passNote(Fraction length, Fraction inFile) {
    if (roundings == 0 && (length == inFile || length.equals(inFile))) {
      at = at.plus(length);
    } else {
      if (roundings == 0) {
        remember();
      }
      roundings += length.equals(inFile) ? 0 : 1;
      ahead = ahead.plus(inFile).minus(length);
      at = at.plus(length);
      remember();
    }
    high = Fraction.larger(high, at);
    if (skipped) {
      notesEnd = Fraction.larger(notesEnd, at);
    }
  }

  private void remember() {
    counted.add(at.plus(ahead));
    exact.add(at);
  }

  /** Moves on without a note. */
  void skip(Fraction inFile) {
    if (!skipped) {
      skipped = true;
      notesEnd = high;
    }
    moveTo(at.plus(ahead).plus(inFile), at.plus(inFile));
    high = Fraction.larger(high, at);
  }

  /**
   * Moves back, at most to the start of the bar.
   *
   * @param division the shortest duration of the file, by which each rounded note may be off
   * @return false when that would lead further back, beyond what rounding explains
   */
  boolean back(Fraction inFile, Fraction division) {
    Fraction target = at.plus(ahead).minus(inFile);
    Fraction slack = division.times(roundings);
    if (target.isZero() || roundings > 0 && target.compareTo(slack) <= 0) {
      boolean within = target.plus(slack).compareTo(Fraction.ZERO) >= 0;
      at = Fraction.ZERO;
      ahead = Fraction.ZERO;
      return within;
    }
    if (target.isNegative()) {
      at = Fraction.ZERO;
      ahead = Fraction.ZERO;
      return false;
    }
    moveTo(target, target);
    return true;
  }

  /** Moves to a count of the file; to {@code otherwise} where the file's count tells no place. */
  private void moveTo(Fraction count, Fraction otherwise) {
    if (roundings > 0) {
      int known = counted.indexOf(count);
      if (known >= 0) {
        at = exact.get(known);
        ahead = count.minus(at);
        return;
      }
    }
    ahead = count.minus(otherwise);
    at = otherwise;
  }
}
