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

  /**
   * The metre of a text: {@code 4/4}, a sum as in {@code 3+2/8}, or {@code free}.
   *
   * @throws IllegalArgumentException if it is none of these
   */
  public static Metre named(String text) {
    if (text.equals("free")) {
      return FREE;
    }
    if (!text.matches(
        "[0-9]{1,2}(\\+[0-9]{1,2})*/[0-9]{1,2}(\\+[0-9]{1,2}(\\+[0-9]{1,2})*/[0-9]{1,2})*")) {
      throw new IllegalArgumentException("Invalid metre: " + text);
    }
    if (text.indexOf('+') < 0) {
      String[] both = text.split("/");
      return of(Integer.parseInt(both[0]), Integer.parseInt(both[1]));
    }
    Fraction length = Fraction.ZERO;
    Fraction shortest = Fraction.ONE;
    for (String part : text.split("(?<=/[0-9]{1,2})\\+")) {
      String[] both = part.split("/");
      Fraction unit = Fraction.of(4, Integer.parseInt(both[1]));
      for (String beats : both[0].split("\\+")) {
        length = length.plus(unit.times(Integer.parseInt(beats)));
      }
      shortest = Fraction.smaller(shortest, unit);
    }
    return new Metre(text, length, shortest);
  }

  public boolean isFree() {
    return !barLength.isPositive();
  }

  /** Beats in a full bar; may be a fraction in an odd metre. */
  public Fraction beats() {
    return barLength.dividedBy(beatLength);
  }
}
