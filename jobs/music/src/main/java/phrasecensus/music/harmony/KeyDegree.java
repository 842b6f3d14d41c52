package phrasecensus.music.harmony;

import phrasecensus.music.pitch.Pitch;

/**
 * What a note is over the tonic of a key, where no chord tells more.
 *
 * @param name the degree as players say it: {@code 1 b2 2 b3 3 4 #4 5 b6 6 b7 7}
 * @param isChordTone true for 1 3 5 7 of the key's scale: its own third, fifth and seventh; a blues
 *     has both thirds, minor both sevenths where its form is open
 */
public record KeyDegree(String name, boolean isChordTone) {
  private static final String[] NAMES = {
    "1", "b2", "2", "b3", "3", "4", "#4", "5", "b6", "6", "b7", "7"
  };

  /**
   * The degree of a pitch.
   *
   * @param centre a known centre
   * @param scale its scale
   */
  public static KeyDegree of(TonalCentre centre, CentreScale scale, Pitch pitch) {
    int semitones = Math.floorMod(pitch.pitchClass() - centre.tonic(), 12);
    boolean inScale = scale.semitones().contains(semitones);
    boolean chordTone =
        switch (semitones) {
          case 0, 7 -> true;
          case 3, 4, 10, 11 -> inScale;
          case 6 -> inScale && !scale.semitones().contains(7);
          default -> false;
        };
    return new KeyDegree(NAMES[semitones], chordTone);
  }
}
