package phrasecensus.report.engraving;

/**
 * A written pitch.
 *
 * @param diatonic steps above C0: 7 to the octave
 * @param alter semitones, flats negative
 */
record WrittenPitch(int diatonic, int alter) {
  private static final String STEPS = "CDEFGAB";
  private static final int[] SHARP_ORDER = {3, 0, 4, 1, 5, 2, 6};

  /**
   * Reads a spelled pitch as tables have it, {@code B♭4}.
   *
   * @throws IllegalArgumentException if it is none
   */
  static WrittenPitch of(String name) {
    int step = name.isEmpty() ? -1 : STEPS.indexOf(name.charAt(0));
    int alter = 0;
    int i = 1;
    while (i < name.length() && "#\u266fb\u266d".indexOf(name.charAt(i)) >= 0) {
      alter += name.charAt(i) == '#' || name.charAt(i) == '\u266f' ? 1 : -1;
      i++;
    }
    // Cents beside the semitone have no sign here: the note stands as it is spelled.
    String octave = name.substring(Math.min(i, name.length())).replaceFirst("[+-]\\d+\u00a2$", "");
    if (step < 0 || !octave.matches("-?\\d+")) {
      throw new IllegalArgumentException("Invalid pitch: " + name);
    }
    return new WrittenPitch(7 * Integer.parseInt(octave) + step, alter);
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
