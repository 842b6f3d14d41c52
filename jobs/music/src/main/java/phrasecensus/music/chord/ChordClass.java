package phrasecensus.music.chord;

import java.util.Locale;

/**
 * What a chord does in a key, told by third, fifth and seventh alone: the classes that the search
 * for tonal centres weighs.
 */
public enum ChordClass {
  /** Major triad. */
  MAJ,
  /** Major triad with a sixth. */
  MAJ6,
  /** Major seventh. */
  MAJ7,
  /** Every dominant, with or without tensions, and the augmented triad. */
  DOM7,
  /** Suspended second or fourth, with or without a seventh. */
  SUS,
  /** Minor triad. */
  MIN,
  /** Minor triad with a sixth. */
  MIN6,
  /** Minor seventh. */
  MIN7,
  /** Minor triad with a major seventh. */
  MINMAJ7,
  /** Half-diminished. */
  HDIM7,
  /** Diminished triad or seventh. */
  DIM;

  /** The word in the weights: lower case. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** The quality, coarser than the class. */
  public ChordQuality quality() {
    return switch (this) {
      case MAJ, MAJ6, MAJ7 -> ChordQuality.MAJOR;
      case DOM7 -> ChordQuality.DOMINANT;
      case SUS -> ChordQuality.SUSPENDED;
      case MIN, MIN6, MIN7, MINMAJ7 -> ChordQuality.MINOR;
      case HDIM7 -> ChordQuality.HALF_DIMINISHED;
      case DIM -> ChordQuality.DIMINISHED;
    };
  }

  /**
   * The class of a chord.
   *
   * @param tones semitones above the root by degree number
   * @param absent what stands for a degree that the chord lacks
   * @return null for a chord with neither third nor suspension
   */
  static ChordClass of(int[] tones, int absent) {
    int seventh = tones[7];
    boolean sixth = tones[6] != absent || tones[13] != absent && seventh == absent;
    return switch (tones[3]) {
      case 4 -> {
        if (seventh == 11) {
          yield MAJ7;
        }
        boolean augmented = tones[5] == 8;
        yield seventh != absent || augmented ? DOM7 : sixth ? MAJ6 : MAJ;
      }
      case 3 -> {
        if (tones[5] == 6) {
          yield seventh == 10 ? HDIM7 : DIM;
        }
        if (seventh == 11) {
          yield MINMAJ7;
        }
        yield seventh != absent ? MIN7 : sixth ? MIN6 : MIN;
      }
      default -> tones[4] != absent || tones[2] != absent ? SUS : null;
    };
  }
}
