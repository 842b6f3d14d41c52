package phrasecensus.music.pitch;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A spelled pitch in an octave.
 *
 * @param step letter
 * @param alter semitones added to the letter, sharps positive
 * @param octave scientific octave: middle C is C4; at a B sharp or C flat the letter's octave
 * @param cents what a microtonal alteration leaves after {@code alter}, -50 to 50; 0 for the usual
 *     twelve tones
 */
public record Pitch(Step step, int alter, int octave, int cents) {
  private static final Pattern TEXT =
      Pattern.compile("([A-G])([♯♭#b]*)(-?[0-9]{1,3})(?:([+-][0-9]{1,2})¢)?");

  /** A pitch of the usual twelve tones. */
  public static Pitch of(Step step, int alter, int octave) {
    return new Pitch(step, alter, octave, 0);
  }

  /**
   * Reads what {@link #toString} writes; {@code #} and {@code b} are taken for the signs.
   *
   * @throws IllegalArgumentException if it is no spelled pitch
   */
  public static Pitch named(String text) {
    Matcher parts = TEXT.matcher(text);
    if (!parts.matches()) {
      throw new IllegalArgumentException("Invalid pitch: " + text);
    }
    int alter = 0;
    for (char sign : parts.group(2).toCharArray()) {
      alter += sign == '♯' || sign == '#' ? 1 : -1;
    }
    return new Pitch(
        Step.valueOf(parts.group(1)),
        alter,
        Integer.parseInt(parts.group(3)),
        parts.group(4) == null ? 0 : Integer.parseInt(parts.group(4)));
  }

  /** The nearest of the twelve tones under the same name. */
  public Pitch withoutCents() {
    return of(step, alter, octave);
  }

  /** MIDI note number of the nearest of the twelve tones; middle C is 60. Not limited to 0-127. */
  public int midi() {
    return 12 * (octave + 1) + step.semitones() + alter;
  }

  /** 0 (C) to 11 (B). */
  public int pitchClass() {
    return Math.floorMod(midi(), 12);
  }

  public NoteName name() {
    return new NoteName(step, alter);
  }

  /** The same pitch without a double sharp or double flat; others as they are. */
  public Pitch withoutDoubles() {
    NoteName plain = name().withoutDoubles();
    return plain.equals(name())
        ? this
        : new Pitch(
            plain.step(),
            plain.alter(),
            Math.floorDiv(midi() - plain.step().semitones() - plain.alter(), 12) - 1,
            cents);
  }

  /** Letter steps above C0, for the place on a staff. */
  public int staffSteps() {
    return 7 * octave + step.ordinal();
  }

  /** {@code E♭4}, {@code F♯5}. */
  @Override
  public String toString() {
    String text = step.name() + NoteName.accidental(alter) + octave;
    return cents == 0 ? text : text + (cents > 0 ? "+" : "") + cents + "¢";
  }
}
