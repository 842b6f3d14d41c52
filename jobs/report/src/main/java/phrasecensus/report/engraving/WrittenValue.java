package phrasecensus.report.engraving;

import java.util.Optional;
import phrasecensus.music.time.Fraction;

/**
 * A note value that can be written as one sign.
 *
 * @param halvings of a whole note: 0 whole, 1 half, 2 quarter, 3 eighth … 10 thousand-and-twenty-fourth
 * @param dots 0 or 1
 */
record WrittenValue(int halvings, int dots) {
  static final int MOST_HALVINGS = 10;

  /** The value of a length in quarter notes; empty when it takes more than one sign. */
  static Optional<WrittenValue> of(Fraction quarters) {
    for (int halvings = 0; halvings <= MOST_HALVINGS; halvings++) {
      Fraction plain = Fraction.of(4, 1L << halvings);
      if (quarters.equals(plain)) {
        return Optional.of(new WrittenValue(halvings, 0));
      }
      if (quarters.equals(plain.times(Fraction.of(3, 2)))) {
        return Optional.of(new WrittenValue(halvings, 1));
      }
    }
    return Optional.empty();
  }

  /** How many flags or beams it has. */
  int flags() {
    return Math.max(0, halvings - 2);
  }

  boolean hasStem() {
    return halvings > 0;
  }
}
