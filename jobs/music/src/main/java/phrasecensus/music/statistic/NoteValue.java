package phrasecensus.music.statistic;

import java.util.Arrays;
import java.util.Locale;
import phrasecensus.music.time.Fraction;

/**
 * Note values as a reader of a chart counts them, by exact sounding length with ties joined. Names
 * are the standard ones; the classes are merged so that a mix stays readable (common practice, no
 * source).
 */
public enum NoteValue {
  WHOLE(4, 1),
  DOTTED_HALF(3, 1),
  HALF(2, 1),
  DOTTED_QUARTER(3, 2),
  QUARTER(1, 1),
  /** Three in the time of a half note. */
  QUARTER_TRIPLET(2, 3),
  DOTTED_EIGHTH(3, 4),
  EIGHTH(1, 2),
  /** Three in the time of a quarter note. */
  EIGHTH_TRIPLET(1, 3),
  SIXTEENTH(1, 4),
  /** Three in the time of an eighth note. */
  SIXTEENTH_TRIPLET(1, 6),
  THIRTY_SECOND(1, 8),
  /** Everything else: tied sums, double dots, other tuplets, longer than a whole note. */
  OTHER(0, 1);

  /** Every named value is a whole number of these parts of a quarter note. */
  private static final int PARTS = 24;

  private static final Fraction LONGEST = WHOLE.length;
  private static final NoteValue[] BY_PARTS = new NoteValue[4 * PARTS + 1];

  static {
    Arrays.fill(BY_PARTS, OTHER);
    for (NoteValue value : values()) {
      if (value != OTHER) {
        BY_PARTS[(int) value.length.times(PARTS).numerator()] = value;
      }
    }
  }

  private final Fraction length;

  NoteValue(long numerator, long denominator) {
    this.length = Fraction.of(numerator, denominator);
  }

  /** Length in quarter notes; zero for {@link #OTHER}, which has no single length. */
  public Fraction length() {
    return length;
  }

  /** The word in keys of the catalogue, as in {@code dotted_quarter}. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The class of a positive length in quarter notes. */
  public static NoteValue of(Fraction length) {
    if (PARTS % length.denominator() != 0 || length.compareTo(LONGEST) > 0) {
      return OTHER;
    }
    return BY_PARTS[(int) (length.numerator() * (PARTS / length.denominator()))];
  }
}
