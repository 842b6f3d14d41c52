package phrasecensus.music.score;

import phrasecensus.music.time.Fraction;

/**
 * A time signature.
 *
 * @param text as in {@code 4/4}, {@code 3+2/8}; {@code free} for none
 * @param barLength in quarter notes; zero for {@link #FREE}
 * @param beatLength in quarter notes: the denominator's note, the dotted one in 6/8, 9/8, 12/8
 *     (common practice, no source); one quarter for {@link #FREE}
 */
public record Metre(String text, Fraction barLength, Fraction beatLength) {
  /** No metre: no statistic that needs beats is defined. */
  public static final Metre FREE = new Metre("free", Fraction.ZERO, Fraction.ONE);

  /** A simple or compound metre of one numerator. */
  public static Metre of(int beats, int beatType) {
    Fraction unit = Fraction.of(4, beatType);
    boolean compound = beatType >= 8 && beats % 3 == 0 && beats > 3;
    return new Metre(beats + "/" + beatType, unit.times(beats), compound ? unit.times(3) : unit);
  }

  public boolean isFree() {
    return !barLength.isPositive();
  }

  /** Beats in a full bar; may be a fraction in an odd metre. */
  public Fraction beats() {
    return barLength.dividedBy(beatLength);
  }
}
