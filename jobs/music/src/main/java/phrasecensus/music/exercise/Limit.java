package phrasecensus.music.exercise;

import java.util.List;
import java.util.Optional;
import phrasecensus.music.score.Note;
import phrasecensus.music.time.Fraction;

/** What an exercise must not do to stay singable (common practice, no source). */
public enum Limit {
  /** It leaves the range of the instrument. */
  RANGE,
  /** It spans more than a twelfth. */
  SPAN,
  /** It leaps by more than an octave, and the phrase has no such leap. */
  LEAP,
  /** More than two leaps above a fourth follow one another. */
  LEAPS_IN_A_ROW,
  /** It has a value shorter than the phrase's shortest. */
  VALUE;

  /** A twelfth. */
  public static final int MOST_SPAN = 19;

  /** An octave. */
  public static final int MOST_LEAP = 12;

  /** A fourth. */
  public static final int SMALL_LEAP = 5;

  /** Leaps above a fourth that may follow one another. */
  public static final int MOST_LEAPS = 2;

  /**
   * The first limit that a line breaks; empty for one that can be sung.
   *
   * @param phrase that it was made from
   * @param made the line
   */
  static Optional<Limit> brokenBy(List<Note> phrase, List<Note> made, Range range) {
    if (!made.stream().allMatch(note -> range.holds(note.written().midi()))) {
      return Optional.of(RANGE);
    }
    int lowest = made.stream().mapToInt(Note::midi).min().orElseThrow();
    int highest = made.stream().mapToInt(Note::midi).max().orElseThrow();
    if (highest - lowest > MOST_SPAN) {
      return Optional.of(SPAN);
    }
    int widest = 0;
    for (int i = 1; i < phrase.size(); i++) {
      widest = Math.max(widest, leap(phrase, i));
    }
    int row = 0;
    for (int i = 1; i < made.size(); i++) {
      int leap = leap(made, i);
      if (leap > MOST_LEAP && leap > widest) {
        return Optional.of(LEAP);
      }
      row = leap > SMALL_LEAP ? row + 1 : 0;
      if (row > MOST_LEAPS) {
        return Optional.of(LEAPS_IN_A_ROW);
      }
    }
    return shortest(made).isBefore(shortest(phrase)) ? Optional.of(VALUE) : Optional.empty();
  }

  private static int leap(List<Note> notes, int i) {
    return Math.abs(notes.get(i).midi() - notes.get(i - 1).midi());
  }

  private static Fraction shortest(List<Note> notes) {
    return notes.stream().map(Note::length).reduce(Fraction::smaller).orElseThrow();
  }
}
