package phrasecensus.music.harmony;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import phrasecensus.music.chord.Chord;

/**
 * The scale of a tonal centre: major is Ionian; minor the union of natural, harmonic and melodic
 * minor; blues is Mixolydian with the flat third and flat fifth; a modal centre has the mode that
 * its chord asks for, Dorian unless the chord has a major third or none (common practice, no
 * source).
 */
public enum CentreScale {
  IONIAN("major scale", 0, 2, 4, 5, 7, 9, 11),
  MINOR("natural, harmonic and melodic minor", 0, 2, 3, 5, 7, 8, 9, 10, 11),
  BLUES("Mixolydian with b3 and b5", 0, 2, 3, 4, 5, 6, 7, 9, 10),
  DORIAN("Dorian", 0, 2, 3, 5, 7, 9, 10),
  MIXOLYDIAN("Mixolydian", 0, 2, 4, 5, 7, 9, 10),
  LYDIAN("Lydian", 0, 2, 4, 6, 7, 9, 11),
  PHRYGIAN("Phrygian", 0, 1, 3, 5, 7, 8, 10),
  LOCRIAN("Locrian", 0, 1, 3, 5, 6, 8, 10),
  AEOLIAN("natural minor scale", 0, 2, 3, 5, 7, 8, 10),
  HARMONIC_MINOR("harmonic minor scale", 0, 2, 3, 5, 7, 8, 11),
  MELODIC_MINOR("melodic minor scale", 0, 2, 3, 5, 7, 9, 11);

  /** The modes of one signature, each on the degree of the major scale that its place tells. */
  public static final List<CentreScale> MODES_OF_A_SIGNATURE =
      List.of(IONIAN, DORIAN, PHRYGIAN, LYDIAN, MIXOLYDIAN, AEOLIAN, LOCRIAN);

  private final String words;
  private final int mask;
  private final List<Integer> semitones;

  CentreScale(String words, Integer... semitones) {
    this.words = words;
    this.semitones = List.of(semitones);
    this.mask = this.semitones.stream().mapToInt(s -> 1 << s).sum();
  }

  /** The scale in words, as a report says it. */
  public String words() {
    return words;
  }

  /**
   * The word in tables: {@code major}, {@code natural_minor}, else the lower-case name of the
   * scale, as in {@code dorian}; {@code minor} for natural, harmonic and melodic minor together.
   */
  public String word() {
    return switch (this) {
      case IONIAN -> "major";
      case AEOLIAN -> "natural_minor";
      default -> name().toLowerCase(Locale.ROOT);
    };
  }

  /** Semitones above the tonic, ascending from 0. */
  public List<Integer> semitones() {
    return semitones;
  }

  /** Share of the twelve tones that it holds: what a line without any key would reach. */
  public double chanceShare() {
    return semitones.size() / 12.0;
  }

  /**
   * True when the scale on a tonic holds a pitch class.
   *
   * @param tonic 0 (C) to 11
   * @param pitchClass 0 (C) to 11
   */
  public boolean contains(int tonic, int pitchClass) {
    return (mask >> Math.floorMod(pitchClass - tonic, 12) & 1) == 1;
  }

  /**
   * The scale of a centre; empty for an unknown one.
   *
   * @param chord the chord in force, which tells the mode of a modal centre when it stands on its
   *     tonic; null for none
   */
  public static Optional<CentreScale> of(TonalCentre centre, Chord chord) {
    return switch (centre.mode()) {
      case MAJOR -> Optional.of(IONIAN);
      case MINOR -> Optional.of(MINOR);
      case BLUES -> Optional.of(BLUES);
      case MODAL -> Optional.of(modal(centre, chord));
      case UNKNOWN -> Optional.empty();
    };
  }

  /** The scale that the mode alone tells; null for a modal and an unknown centre. */
  static CentreScale ofMode(TonalCentre centre) {
    return centre.mode() == TonalCentre.Mode.MODAL ? null : of(centre, null).orElse(null);
  }

  private static CentreScale modal(TonalCentre centre, Chord chord) {
    if (chord == null || chord.root() == null || chord.root().pitchClass() != centre.tonic()) {
      return DORIAN;
    }
    return chord
        .chordClass()
        .map(
            c ->
                switch (c) {
                  case MAJ, MAJ6, MAJ7 -> LYDIAN;
                  case DOM7, SUS -> MIXOLYDIAN;
                  case MIN, MIN6, MIN7, MINMAJ7, HDIM7, DIM -> DORIAN;
                })
        .orElse(DORIAN);
  }
}
