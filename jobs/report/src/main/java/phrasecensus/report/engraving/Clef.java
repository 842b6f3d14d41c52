package phrasecensus.report.engraving;

import java.util.Optional;

/** The clefs that are drawn. Common practice, no source. */
enum Clef {
  TREBLE("G2", Glyph.G_CLEF, 1, 34, 0),
  TREBLE_OCTAVE_DOWN("G2-8", Glyph.G_CLEF, 1, 27, 0),
  TREBLE_OCTAVE_UP("G2+8", Glyph.G_CLEF, 1, 41, 0),
  ALTO("C3", Glyph.C_CLEF, 0, 28, -1),
  TENOR("C4", Glyph.C_CLEF, -1, 26, 1),
  BASS("F4", Glyph.F_CLEF, -1, 22, -2),
  BASS_OCTAVE_DOWN("F4-8", Glyph.F_CLEF, -1, 15, -2);

  private static final int[] SHARPS = {4, 1, 5, 2, -1, 3, 0};
  private static final int[] FLATS = {0, 3, -1, 2, -2, 1, -3};

  private final String text;
  private final Glyph glyph;
  private final double y;
  private final int middle;
  private final int shift;

  Clef(String text, Glyph glyph, double y, int middle, int shift) {
    this.text = text;
    this.glyph = glyph;
    this.y = y;
    this.middle = middle;
    this.shift = shift;
  }

  /** The clef of a letter, a line and octaves, as in {@code G2-8}; empty when it is not drawn. */
  static Optional<Clef> named(String text) {
    for (Clef clef : values()) {
      if (clef.text.equals(text)) {
        return Optional.of(clef);
      }
    }
    return Optional.empty();
  }

  Glyph glyph() {
    return glyph;
  }

  /** Where its sign stands, in staff spaces below the middle line. */
  double y() {
    return y;
  }

  /** True for a clef with an eight above, -1 below, 0 for one without. */
  int octave() {
    return switch (this) {
      case TREBLE_OCTAVE_UP -> 1;
      case TREBLE_OCTAVE_DOWN, BASS_OCTAVE_DOWN -> -1;
      default -> 0;
    };
  }

  /** Steps above the middle line at which a pitch stands. */
  int place(WrittenPitch pitch) {
    return pitch.diatonic() - middle;
  }

  /** Steps above the middle line of an accidental of the key signature, from 0. */
  int accidentalPlace(boolean sharp, int index) {
    int place = (sharp ? SHARPS[index] : FLATS[index]) + shift;
    // In the tenor clef the first and third sharp would stand too high.
    return place > 5 || this == TENOR && sharp && place == 5 ? place - 7 : place;
  }

  /** Lines that its notes need outside the staff, as a cost: few cost little, many very much. */
  double cost(WrittenPitch pitch) {
    int away = Math.max(0, Math.abs(place(pitch)) - 7);
    // Above the treble staff an 8va helps.
    boolean helped = place(pitch) > 0 && glyph == Glyph.G_CLEF;
    return helped ? Math.min(away, 5) : away * away / 4.0;
  }
}
