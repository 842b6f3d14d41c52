package phrasecensus.music.difficulty;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import phrasecensus.music.pitch.Step;
import phrasecensus.music.time.Fraction;

/**
 * How hard a line is for its player, from 1 (first steps) to 5 (for the advanced): the level that
 * its hardest side asks for, since a line is within reach only where every side of it is. Tempo,
 * breath and tone are no part of it. The line is judged as written for the instrument that plays
 * it, so the same phrase may lie on another level after a transposition.
 *
 * <table>
 * <caption>What each level allows at most (common practice, no source)</caption>
 * <tr><th>side</th><th>1</th><th>2</th><th>3</th><th>4</th><th>5</th></tr>
 * <tr><td>note values</td><td>quarters</td><td>eighths</td><td>sixteenths, up to a quarter of the
 *     notes</td><td>sixteenths</td><td>shorter</td></tr>
 * <tr><td>tuplets</td><td>none</td><td>none</td><td>three in a quarter</td><td>three in a
 *     half or in an eighth</td><td>others</td></tr>
 * <tr><td>range</td><td>a fifth</td><td>an octave</td><td>a tenth</td><td>two octaves</td>
 *     <td>more</td></tr>
 * <tr><td>leaps</td><td>a third</td><td>a fifth</td><td>a sixth</td><td>an octave</td>
 *     <td>more</td></tr>
 * <tr><td>accidentals</td><td>none</td><td>one note in eight</td><td>one in five</td>
 *     <td>one in three</td><td>more, or double ones</td></tr>
 * <tr><td>key signature</td><td>one sharp or flat</td><td>two</td><td>three</td><td>four</td>
 *     <td>more</td></tr>
 * </table>
 *
 * @param levels the level of each side, 1 to 5
 */
public record Difficulty(Map<Side, Integer> levels) {
  /** The easiest level. */
  public static final int EASIEST = 1;

  /** The hardest level. */
  public static final int HARDEST = 5;

  private static final Fraction QUARTER = Fraction.ONE;
  private static final Fraction TRIPLET_EIGHTH = Fraction.of(1, 3);
  private static final Fraction SIXTEENTH = Fraction.of(1, 4);
  private static final Fraction TRIPLET_SIXTEENTH = Fraction.of(1, 6);

  /** Semitones up to which a range lies on the levels 1 to 4. */
  private static final int[] RANGES = {7, 12, 16, 24};

  /** Semitones up to which the widest step from note to note lies on the levels 1 to 4. */
  private static final int[] LEAPS = {4, 7, 9, 12};

  /** One altered note in so many, for the levels 2 to 4. */
  private static final int[] ONE_ALTERED_IN = {8, 5, 3};

  /** What a line asks of its player. */
  public enum Side {
    NOTE_VALUES,
    TUPLETS,
    RANGE,
    LEAPS,
    ACCIDENTALS,
    SIGNATURE
  }

  /**
   * @throws NullPointerException if a side is missing
   */
  public Difficulty {
    Map<Side, Integer> all = new EnumMap<>(Side.class);
    for (Side side : Side.values()) {
      all.put(side, Objects.requireNonNull(levels.get(side), side.name()));
    }
    levels = java.util.Collections.unmodifiableMap(all);
  }

  /**
   * Judges a line.
   *
   * @param notes in order; a line without notes lies on level 1
   * @param signature sharps of the written key signature, flats negative
   */
  public static Difficulty of(List<WrittenNote> notes, int signature) {
    Map<Side, Integer> levels = new EnumMap<>(Side.class);
    levels.put(Side.NOTE_VALUES, noteValues(notes));
    levels.put(Side.TUPLETS, notes.stream().mapToInt(Difficulty::tuplet).max().orElse(EASIEST));
    levels.put(Side.RANGE, range(notes));
    levels.put(Side.LEAPS, leaps(notes));
    levels.put(Side.ACCIDENTALS, accidentals(notes, signature));
    levels.put(Side.SIGNATURE, Math.max(EASIEST, Math.min(HARDEST, Math.abs(signature))));
    return new Difficulty(levels);
  }

  /** The level of the whole: that of its hardest side. */
  public int level() {
    return levels.values().stream().mapToInt(Integer::intValue).max().orElse(EASIEST);
  }

  private static int noteValues(List<WrittenNote> notes) {
    Fraction shortest =
        notes.stream().map(WrittenNote::length).min(Fraction::compareTo).orElse(QUARTER);
    if (shortest.isAtLeast(QUARTER)) {
      return 1;
    }
    // Three in the time of a half note are read as quarters, in that of a quarter as eighths.
    if (shortest.isAtLeast(TRIPLET_EIGHTH)) {
      return 2;
    }
    if (shortest.isBefore(TRIPLET_SIXTEENTH)) {
      return 5;
    }
    long quick = notes.stream().filter(note -> note.length().isBefore(TRIPLET_EIGHTH)).count();
    return shortest.isAtLeast(SIXTEENTH) && 4 * quick <= notes.size() ? 3 : 4;
  }

  private static int tuplet(WrittenNote note) {
    long parts = note.length().denominator();
    long odd = parts >> Long.numberOfTrailingZeros(parts);
    if (odd == 1) {
      return 1;
    }
    if (odd != 3) {
      return 5;
    }
    Fraction length = note.length();
    boolean ofHalf = length.equals(Fraction.of(2, 3)) || length.equals(Fraction.of(4, 3));
    return ofHalf || length.isBefore(TRIPLET_EIGHTH) ? 4 : 3;
  }

  private static int range(List<WrittenNote> notes) {
    int lowest = notes.stream().mapToInt(note -> note.pitch().midi()).min().orElse(0);
    int highest = notes.stream().mapToInt(note -> note.pitch().midi()).max().orElse(0);
    return level(highest - lowest, RANGES);
  }

  private static int leaps(List<WrittenNote> notes) {
    int widest = 0;
    for (int i = 1; i < notes.size(); i++) {
      int leap = notes.get(i).pitch().midi() - notes.get(i - 1).pitch().midi();
      widest = Math.max(widest, Math.abs(leap));
    }
    return level(widest, LEAPS);
  }

  private static int level(int semitones, int[] most) {
    int level = EASIEST;
    while (level <= most.length && semitones > most[level - 1]) {
      level++;
    }
    return level;
  }

  private static int accidentals(List<WrittenNote> notes, int signature) {
    long altered =
        notes.stream()
            .filter(note -> note.pitch().alter() != alter(note.pitch().step(), signature))
            .count();
    if (altered == 0) {
      return 1;
    }
    if (notes.stream().anyMatch(note -> Math.abs(note.pitch().alter()) > 1)) {
      return HARDEST;
    }
    int level = 2;
    for (int oneIn : ONE_ALTERED_IN) {
      if (altered * oneIn <= notes.size()) {
        return level;
      }
      level++;
    }
    return HARDEST;
  }

  /**
   * What a signature does to a letter: the sharps come from F upward in fifths, the flats from B
   * down.
   */
  private static int alter(Step step, int signature) {
    if (signature > 0) {
      return step.fifths() + 1 < signature ? 1 : 0;
    }
    return 5 - step.fifths() < -signature ? -1 : 0;
  }
}
