package phrasecensus.music.pitch;

/** The seven letter names, C first, as MusicXML's {@code step} orders an octave. */
public enum Step {
  C(0, 0),
  D(2, 2),
  E(4, 4),
  F(5, -1),
  G(7, 1),
  A(9, 3),
  B(11, 5);

  private final int semitones;
  private final int fifths;

  Step(int semitones, int fifths) {
    this.semitones = semitones;
    this.fifths = fifths;
  }

  /** Semitones above C, 0 to 11. */
  public int semitones() {
    return semitones;
  }

  /** Place on the line of fifths: F -1, C 0, G 1, to B 5. */
  public int fifths() {
    return fifths;
  }

  /** The letter {@code steps} above (below when negative), octaves left out. */
  public Step plus(int steps) {
    return values()[Math.floorMod(ordinal() + steps, 7)];
  }
}
