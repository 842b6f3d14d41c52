package phrasecensus.readers.musicxml;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.music.time.Fraction;

/** Splits a length into note values that can be written, longest first. */
final class NoteValues {
  /**
   * A written note value.
   *
   * @param length in quarter notes
   * @param type MusicXML's word; null when no note type has this length
   * @param dots 0 to 2
   * @param actual notes in the time of {@code normal}; 1 without a tuplet
   * @param normal notes they stand for
   */
  record Value(Fraction length, String type, int dots, int actual, int normal) {
    boolean isTuplet() {
      return actual != 1;
    }
  }

  private static final String[] TYPES = {
    "long", "breve", "whole", "half", "quarter", "eighth", "16th", "32nd", "64th", "128th", "256th",
    "512th", "1024th"
  };
  private static final Fraction LONGEST = Fraction.of(16);
  private static final int MOST_VALUES = 12;

  private NoteValues() {}

  /** The values that together have a length; positive. */
  static List<Value> of(Fraction length) {
    long odd = length.denominator();
    while (odd % 2 == 0) {
      odd /= 2;
    }
    if (odd > 63) {
      return List.of(new Value(length, null, 0, 1, 1));
    }
    int actual = (int) odd;
    int normal = Integer.highestOneBit(actual);
    List<Value> values = new ArrayList<>();
    Fraction left = length.times(Fraction.of(actual, normal));
    while (left.isPositive() && values.size() < MOST_VALUES) {
      Value value = longest(left, actual, normal);
      if (value == null) {
        break;
      }
      values.add(value);
      left = left.minus(value.length().times(Fraction.of(actual, normal)));
    }
    return left.isZero() ? values : List.of(new Value(length, null, 0, 1, 1));
  }

  /** The longest value not above a length without its tuplet; null below the shortest. */
  private static Value longest(Fraction length, int actual, int normal) {
    Fraction plain = LONGEST;
    Fraction factor = Fraction.of(normal, actual);
    for (String type : TYPES) {
      for (int dots = 2; dots >= 0; dots--) {
        Fraction dotted = plain.times(Fraction.of((1L << dots + 1) - 1, 1L << dots));
        // Dots only where they finish the length; a dotted value inside a chain is hard to read.
        if (dotted.equals(length) || dots == 0 && dotted.isBefore(length)) {
          return new Value(dotted.times(factor), type, dots, actual, normal);
        }
      }
      plain = plain.times(Fraction.HALF);
    }
    return null;
  }
}
