package phrasecensus.music.pitch;

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

  /** A pitch of the usual twelve tones. */
  public static Pitch of(Step step, int alter, int octave) {
    return new Pitch(step, alter, octave, 0);
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
