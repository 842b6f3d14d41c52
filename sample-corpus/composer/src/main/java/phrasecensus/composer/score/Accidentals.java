package phrasecensus.composer.score;

import java.util.HashMap;
import java.util.Map;
import phrasecensus.composer.harmony.NoteName;

/** Which accidentals a bar has so far, so that only the needed ones are printed. */
final class Accidentals {
  private final int keyFifths;
  private final Map<String, Integer> inForce = new HashMap<>();

  Accidentals(int keyFifths) {
    this.keyFifths = keyFifths;
  }

  /** Name of the accidental to print, null for none; a tied-to note needs none. */
  String needed(NoteName name, int octave, boolean tied) {
    if (tied) {
      return null;
    }
    String place = name.step() + String.valueOf(octave);
    int before = inForce.getOrDefault(place, byKey(name));
    inForce.put(place, name.alter());
    if (before == name.alter()) {
      return null;
    }
    return switch (name.alter()) {
      case -2 -> "flat-flat";
      case -1 -> "flat";
      case 0 -> "natural";
      case 1 -> "sharp";
      default -> "double-sharp";
    };
  }

  private int byKey(NoteName name) {
    int natural = name.fifths() - 7 * name.alter();
    if (keyFifths > 0) {
      return natural + 1 < keyFifths ? 1 : 0;
    }
    return 5 - natural < -keyFifths ? -1 : 0;
  }
}
