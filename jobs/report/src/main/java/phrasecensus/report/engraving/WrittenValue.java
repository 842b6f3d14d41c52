package phrasecensus.report.engraving;

import java.util.Optional;
import phrasecensus.music.time.Fraction;

/**
 * A note value that can be written as one sign.
 *
 * @param halvings of a whole note: 0 whole, 1 half, 2 quarter, 3 eighth … 10
 *     thousand-and-twenty-fourth
 * @param dots 0 or 1
 */
record WrittenValue(int halvings, int dots) {
  static final int MOST_HALVINGS = 10;

  /** The value of a length in quarter notes; empty when it takes more than one sign. */
  static Optional<WrittenValue> of(Fraction quarters) {
    int powerBelow = Long.numberOfTrailingZeros(quarters.denominator());
    int powerAbove = Long.numberOfTrailingZeros(quarters.numerator());
    long odd = quarters.numerator() >> powerAbove;
    if (quarters.denominator() >> powerBelow != 1 || odd != 1 && odd != 3) {
      return Optional.empty();
    }
    // One sign is 4 quarters halved so often, or with a dot 6.
    int dots = odd == 3 ? 1 : 0;
    int halvings = 2 - dots - powerAbove + powerBelow;
    return halvings < 0 || halvings > MOST_HALVINGS
        ? Optional.empty()
        : Optional.of(new WrittenValue(halvings, dots));
  }

  /** How many flags or beams it has. */
  int flags() {
    return Math.max(0, halvings - 2);
  }

  boolean hasStem() {
    return halvings > 0;
  }
}
