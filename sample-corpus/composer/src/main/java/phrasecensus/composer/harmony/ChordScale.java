package phrasecensus.composer.harmony;

import java.util.List;

/**
 * The notes a line uses over a chord, and which of them it may rest on. Chord-scale teaching as in
 * Nettles and Graf 1997 and Mulholland and Hojnacki 2013 (from memory).
 *
 * @param root the note the offsets count from
 * @param offsets scale notes as fifths above the root, so that each has its name
 */
public record ChordScale(NoteName root, List<Integer> offsets) {
  private static final List<Integer> IONIAN = List.of(0, 2, 4, -1, 1, 3, 5);
  private static final List<Integer> LYDIAN = List.of(0, 2, 4, 6, 1, 3, 5);
  private static final List<Integer> MIXOLYDIAN = List.of(0, 2, 4, -1, 1, 3, -2);
  private static final List<Integer> LYDIAN_DOMINANT = List.of(0, 2, 4, 6, 1, 3, -2);
  private static final List<Integer> MIXOLYDIAN_FLAT_NINE = List.of(0, -5, 4, -1, 1, 3, -2);
  private static final List<Integer> FIFTH_OF_HARMONIC_MINOR = List.of(0, -5, 4, -1, 1, -4, -2);
  private static final List<Integer> ALTERED = List.of(0, -5, 9, 4, -6, -4, -2);
  private static final List<Integer> WHOLE_TONE = List.of(0, 2, 4, 6, 8, -2);
  private static final List<Integer> DORIAN = List.of(0, 2, -3, -1, 1, 3, -2);
  private static final List<Integer> AEOLIAN = List.of(0, 2, -3, -1, 1, -4, -2);
  private static final List<Integer> PHRYGIAN = List.of(0, -5, -3, -1, 1, -4, -2);
  private static final List<Integer> LOCRIAN = List.of(0, -5, -3, -1, -6, -4, -2);
  private static final List<Integer> MELODIC_MINOR = List.of(0, 2, -3, -1, 1, 3, 5);
  private static final List<Integer> WHOLE_HALF = List.of(0, 2, -3, -1, -6, -4, -9, 5);

  /** Copies the offsets in. */
  public ChordScale {
    offsets = List.copyOf(offsets);
  }

  /**
   * The scale for a chord on its way to the next one.
   *
   * @param chord the chord
   * @param next the chord after it, null at the end
   * @param key key of the tune
   * @param blues true in a blues, where dominant sevenths rest
   */
  public static ChordScale of(ChordSymbol chord, ChordSymbol next, Key key, boolean blues) {
    return new ChordScale(chord.root(), offsets(chord, next, key, blues));
  }

  /** A major scale on any note, for a player who does not listen to the chords. */
  public static ChordScale majorOn(NoteName tonic) {
    return new ChordScale(tonic, IONIAN);
  }

  private static List<Integer> offsets(
      ChordSymbol chord, ChordSymbol next, Key key, boolean blues) {
    int degree = Math.floorMod(chord.root().pitchClass() - key.tonic().pitchClass(), 12);
    boolean falls = next != null && rises(chord, next) == 5;
    boolean toMinor = falls && isMinor(next);
    return switch (chord.kind().family()) {
      case MAJOR -> degree == 0 || degree == 7 ? IONIAN : LYDIAN;
      case MINOR -> {
        if (!key.minor() && degree == 4 && !falls) {
          yield PHRYGIAN;
        }
        yield !key.minor() && degree == 9 && !falls ? AEOLIAN : DORIAN;
      }
      case MINOR_TONIC -> MELODIC_MINOR;
      case SUSPENDED -> MIXOLYDIAN;
      case HALF_DIMINISHED -> LOCRIAN;
      case DIMINISHED -> WHOLE_HALF;
      case NONE -> key.minor() ? AEOLIAN : IONIAN;
      case DOMINANT -> dominant(chord, falls, toMinor, blues && (degree == 0 || degree == 5));
    };
  }

  private static List<Integer> dominant(
      ChordSymbol chord, boolean falls, boolean toMinor, boolean rests) {
    if (chord.kind() == ChordKind.AUGMENTED_SEVENTH || chord.kind() == ChordKind.AUGMENTED) {
      return WHOLE_TONE;
    }
    for (ChordSymbol.Degree degree : chord.degrees()) {
      if (degree.value() == 9 && degree.alter() > 0) {
        return ALTERED;
      }
      if (degree.value() == 9) {
        return toMinor && chord.kind() == ChordKind.DOMINANT
            ? FIFTH_OF_HARMONIC_MINOR
            : MIXOLYDIAN_FLAT_NINE;
      }
      if (degree.value() == 11) {
        return LYDIAN_DOMINANT;
      }
      if (degree.value() == 5) {
        return ALTERED;
      }
    }
    if (rests) {
      return MIXOLYDIAN;
    }
    if (toMinor && chord.kind() == ChordKind.DOMINANT) {
      return FIFTH_OF_HARMONIC_MINOR;
    }
    return falls ? MIXOLYDIAN : LYDIAN_DOMINANT;
  }

  private static int rises(ChordSymbol from, ChordSymbol to) {
    return Math.floorMod(to.root().pitchClass() - from.root().pitchClass(), 12);
  }

  private static boolean isMinor(ChordSymbol chord) {
    return switch (chord.kind().family()) {
      case MINOR, MINOR_TONIC, HALF_DIMINISHED -> true;
      case MAJOR, DOMINANT, SUSPENDED, DIMINISHED, NONE -> false;
    };
  }

  /** The name of a pitch class in this scale, null when it is outside. */
  public NoteName name(int pitchClass) {
    for (int offset : offsets) {
      NoteName name = root.up(offset);
      if (name.pitchClass() == pitchClass) {
        return name.readable();
      }
    }
    return null;
  }

  /** True when the pitch class is in this scale. */
  public boolean holds(int pitchClass) {
    return name(pitchClass) != null;
  }
}
