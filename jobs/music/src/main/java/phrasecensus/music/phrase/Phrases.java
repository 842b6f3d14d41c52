package phrasecensus.music.phrase;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;

/** Turns boundaries into phrases. */
public final class Phrases {
  private Phrases() {}

  /**
   * The phrases of a solo, given the indices of the notes that begin one.
   *
   * @param boundaries ascending, each from 1 to the number of notes minus 1
   * @throws IllegalArgumentException if they are not
   */
  public static List<Phrase> between(Solo solo, List<Integer> boundaries) {
    List<Note> notes = solo.notes();
    if (notes.isEmpty()) {
      return List.of();
    }
    List<Phrase> phrases = new ArrayList<>();
    int first = 0;
    for (int i = 0; i <= boundaries.size(); i++) {
      int next = i < boundaries.size() ? boundaries.get(i) : notes.size();
      if (next <= first || next > notes.size()) {
        throw new IllegalArgumentException(
            "Invalid phrase boundary: " + next + " after " + first + " of " + notes.size());
      }
      phrases.add(
          new Phrase(i, first, next - 1, notes.get(first).onset(), notes.get(next - 1).end()));
      first = next;
    }
    return List.copyOf(phrases);
  }
}
