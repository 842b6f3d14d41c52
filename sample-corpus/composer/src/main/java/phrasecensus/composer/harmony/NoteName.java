package phrasecensus.composer.harmony;

/**
 * A note name without octave, by its place on the line of fifths: F -1, C 0, G 1, D 2 … B flat -2.
 *
 * @param fifths place on the line of fifths; a sharp adds 7, a flat takes 7 away
 */
public record NoteName(int fifths) {
  private static final String STEPS = "FCGDAEB";

  /**
   * Reads a letter with any number of {@code b} or {@code #}.
   *
   * @throws IllegalArgumentException if the text is no note name
   */
  public static NoteName of(String text) {
    int step = text.isEmpty() ? -1 : STEPS.indexOf(text.charAt(0));
    if (step < 0) {
      throw new IllegalArgumentException("Invalid note name: " + text);
    }
    int fifths = step - 1;
    for (int i = 1; i < text.length(); i++) {
      switch (text.charAt(i)) {
        case 'b' -> fifths -= 7;
        case '#' -> fifths += 7;
        default -> throw new IllegalArgumentException("Invalid note name: " + text);
      }
    }
    return new NoteName(fifths);
  }

  /** The letter, A to G. */
  public char step() {
    return STEPS.charAt(Math.floorMod(fifths + 1, 7));
  }

  /** Semitones above the letter's natural note: -1 flat, 1 sharp. */
  public int alter() {
    return Math.floorDiv(fifths + 1, 7);
  }

  /** Pitch class, 0 for C to 11 for B. */
  public int pitchClass() {
    return Math.floorMod(7 * fifths, 12);
  }

  /** The name that many fifths further up the line. */
  public NoteName up(int moreFifths) {
    return new NoteName(fifths + moreFifths);
  }

  /** The same sound under a name with at most one accidental, F flat to E sharp. */
  public NoteName readable() {
    int place = fifths;
    while (place < -8) {
      place += 12;
    }
    while (place > 11) {
      place -= 12;
    }
    return new NoteName(place);
  }

  /** The octave in which this name sounds as the given MIDI number; middle C is octave 4. */
  public int octave(int midi) {
    return Math.floorDiv(midi - alter(), 12) - 1;
  }

  @Override
  public String toString() {
    int alter = alter();
    return step() + (alter < 0 ? "b".repeat(-alter) : "#".repeat(alter));
  }
}
