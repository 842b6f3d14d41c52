package phrasecensus.composer.line;

import java.util.List;
import java.util.Set;
import phrasecensus.composer.harmony.ChordKind.Family;

/**
 * A few notes a player has in the fingers, as semitones above the chord root. Common practice, no
 * source: scale runs, arpeggios, passing notes and enclosures every method book has.
 *
 * @param name name by which players like it
 * @param families chords it fits
 * @param semitones notes from the chord root
 * @param triplet true when it begins with a triplet, false for even notes from a beat
 */
public record Figure(String name, Set<Family> families, List<Integer> semitones, boolean triplet) {
  private static final Set<Family> MAJOR = Set.of(Family.MAJOR);
  private static final Set<Family> DOMINANT = Set.of(Family.DOMINANT);
  private static final Set<Family> BRIGHT = Set.of(Family.MAJOR, Family.DOMINANT);
  private static final Set<Family> MINOR = Set.of(Family.MINOR);
  private static final Set<Family> DARK = Set.of(Family.MINOR, Family.MINOR_TONIC);
  private static final Set<Family> OPEN = Set.of(Family.MINOR, Family.SUSPENDED);

  /** Every figure the composer knows. */
  public static final List<Figure> ALL =
      List.of(
          even("third to ninth", MAJOR, 4, 7, 11, 14),
          even("third to ninth", DOMINANT, 4, 7, 10, 14),
          even("third to ninth", MINOR, 3, 7, 10, 14),
          even("third to flat ninth", DOMINANT, 4, 7, 10, 13, 12),
          even("passing seventh", DOMINANT, 12, 11, 10, 9, 7),
          even("passing fifth", MAJOR, 12, 11, 9, 8, 7),
          even("passing third", DARK, 5, 4, 3, 2, 0),
          even("enclosed third", BRIGHT, 5, 3, 4, 7),
          even("enclosed third", DARK, 5, 2, 3, 7),
          even("enclosed fifth", BRIGHT, 9, 6, 7, 4),
          even("enclosed fifth", DARK, 9, 6, 7, 3),
          even("enclosed root", BRIGHT, 14, 11, 12, 7),
          even("one two three five", BRIGHT, 0, 2, 4, 7),
          even("one two three five", DARK, 0, 2, 3, 7),
          even("fifth by semitones", BRIGHT, 7, 6, 5, 4, 2),
          even("blue third", BRIGHT, 3, 4, 7, 9),
          even("blue third falling", BRIGHT, 7, 3, 4, 0),
          even("sixth and blue fifth", DOMINANT, 9, 7, 6, 5, 3, 0),
          even("stacked fourths", OPEN, 0, 5, 10, 7),
          even("stacked fourths", OPEN, 2, 7, 12, 10),
          even("falling fourths", OPEN, 14, 10, 12, 7),
          even("five-note scale down", OPEN, 12, 10, 7, 5, 3),
          even("five-note scale up", MINOR, 3, 5, 7, 10, 12),
          even("minor climb", DARK, 7, 9, 11, 12, 14),
          even("half-diminished fall", Set.of(Family.HALF_DIMINISHED), 10, 8, 6, 5, 3),
          even("half-diminished climb", Set.of(Family.HALF_DIMINISHED), 0, 3, 6, 10),
          even("diminished climb", Set.of(Family.DIMINISHED), 0, 3, 6, 9),
          even("diminished fall", Set.of(Family.DIMINISHED), 12, 9, 6, 3),
          turned("turn", BRIGHT, 12, 14, 12, 11, 9),
          turned("turn", BRIGHT, 4, 5, 4, 2, 0),
          turned("turn", DARK, 7, 9, 7, 5, 3),
          turned("triplet arpeggio", MAJOR, 4, 7, 11, 14),
          turned("triplet arpeggio", DOMINANT, 4, 7, 10, 13),
          turned("triplet arpeggio", MINOR, 3, 7, 10, 14),
          turned("triplet arpeggio", Set.of(Family.HALF_DIMINISHED), 3, 6, 10, 12));

  /** Copies the notes in. */
  public Figure {
    semitones = List.copyOf(semitones);
  }

  private static Figure even(String name, Set<Family> families, Integer... semitones) {
    return new Figure(name, families, List.of(semitones), false);
  }

  private static Figure turned(String name, Set<Family> families, Integer... semitones) {
    return new Figure(name, families, List.of(semitones), true);
  }
}
