package phrasecensus.music.rest;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.ScoreTime;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/** Parts a line at its breaths. */
public final class Stretches {
  /**
   * Shortest silence that is a breath, in quarter notes: an eighth. Shorter rests mostly show how
   * short a note is played (common practice, no source).
   */
  public static final Fraction BREATH = Fraction.HALF;

  /**
   * Longest stretch that is heard as one phrase, in bars: four bars and what leads into or out of
   * them (common practice, no source).
   */
  public static final Fraction LONGEST_PHRASE_BARS = Fraction.of(9, 2);

  /** Shortest stretch that is heard as more than a scrap, in bars. */
  public static final Fraction SHORTEST_PHRASE_BARS = Fraction.ONE;

  private Stretches() {}

  /**
   * The stretches of a line, in order; every note is in exactly one. A silence of at least {@link
   * #BREATH} parts two of them, and so does a part that is neither note nor rest. Linear in the
   * notes.
   */
  public static List<Stretch> find(Solo solo) {
    List<Note> notes = solo.notes();
    List<Stretch> stretches = new ArrayList<>();
    int first = 0;
    for (int i = 0; i < notes.size(); i++) {
      Note note = notes.get(i);
      boolean last = i + 1 == notes.size();
      if (!last) {
        Fraction next = notes.get(i + 1).onset();
        Fraction silence = next.minus(note.end());
        if (!silence.isAtLeast(BREATH)
            && !(silence.isPositive() && ScoreTime.isUncertain(solo, note.end(), next))) {
          continue;
        }
      }
      Note from = notes.get(first);
      stretches.add(
          new Stretch(
              stretches.size(),
              first,
              i,
              from.onset(),
              note.end(),
              ScoreTime.bars(solo, from.onset(), note.end(), from.barIndex())));
      first = i + 1;
    }
    return List.copyOf(stretches);
  }
}
