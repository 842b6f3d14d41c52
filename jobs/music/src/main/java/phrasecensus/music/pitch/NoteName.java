package phrasecensus.music.pitch;

/**
 * A spelled pitch without octave: a chord root, a bass, a tonic.
 *
 * @param step letter
 * @param alter semitones added, sharps positive; -1 is a flat
 */
public record NoteName(Step step, int alter) {
  private static final int MOST_SHARP = 8;
  private static final int MOST_FLAT = -6;
  private static final Step[] BY_FIFTHS = {Step.F, Step.C, Step.G, Step.D, Step.A, Step.E, Step.B};

  /** 0 (C) to 11 (B). */
  public int pitchClass() {
    return Math.floorMod(step.semitones() + alter, 12);
  }

  /** Place on the line of fifths: C 0, each sharp adds 7. */
  public int fifths() {
    return step.fifths() + 7 * alter;
  }

  /** The note name at a place on the line of fifths; the inverse of {@link #fifths()}. */
  public static NoteName atFifths(int fifths) {
    return new NoteName(BY_FIFTHS[Math.floorMod(fifths + 1, 7)], Math.floorDiv(fifths + 1, 7));
  }

  /**
   * The name that is easiest to read of those that sound the same, as the root of a chord: from six
   * flats to G sharp, where players look for it (common practice, no source). {@code E♭♭} is {@code
   * D}, {@code C♭} is {@code B}, {@code A♯} is {@code B♭}.
   */
  public NoteName simplest() {
    int place = fifths();
    while (place > MOST_SHARP) {
      place -= 12;
    }
    while (place < MOST_FLAT) {
      place += 12;
    }
    return atFifths(place);
  }

  /** The same name without double sharps and double flats; others as they are. */
  public NoteName withoutDoubles() {
    return Math.abs(alter) < 2 ? this : simplest();
  }

  /** {@code C}, {@code F♯}, {@code B♭}; double alterations as two signs. */
  @Override
  public String toString() {
    return step.name() + accidental(alter);
  }

  static String accidental(int alter) {
    return alter == 0 ? "" : (alter > 0 ? "♯" : "♭").repeat(Math.abs(alter));
  }
}
