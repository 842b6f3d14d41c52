package phrasecensus.report.engraving;

import phrasecensus.music.pitch.Pitch;

/**
 * A written pitch.
 *
 * @param diatonic steps above C0: 7 to the octave
 * @param alter semitones, flats negative
 */
record WrittenPitch(int diatonic, int alter) {
  private static final int[] SHARP_ORDER = {3, 0, 4, 1, 5, 2, 6};

  /**
   * Reads a spelled pitch as tables have it, {@code B♭4}. Cents beside the semitone have no sign
   * here: the note stands as it is spelled.
   *
   * @throws IllegalArgumentException if it is none
   */
  static WrittenPitch of(String name) {
    Pitch pitch = Pitch.named(name);
    return new WrittenPitch(pitch.staffSteps(), pitch.alter());
  }

  /** Alteration that a key signature gives to this step. */
  int alterInKey(int fifths) {
    int step = Math.floorMod(diatonic, 7);
    for (int i = 0; i < Math.min(7, Math.abs(fifths)); i++) {
      if (fifths > 0 && SHARP_ORDER[i] == step) {
        return 1;
      }
      if (fifths < 0 && SHARP_ORDER[6 - i] == step) {
        return -1;
      }
    }
    return 0;
  }
}
