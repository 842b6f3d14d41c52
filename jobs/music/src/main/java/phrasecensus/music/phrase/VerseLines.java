package phrasecensus.music.phrase;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Pattern;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.Syllable;

/**
 * Where lines of verse begin in a melody with words: at a word with a capital after punctuation or
 * a long note. 'I' needs both, as it has its capital anywhere; a name in mid-line has neither.
 * Common practice, no source.
 */
public final class VerseLines {
  /** Share of words that may have a capital: more, and capitals tell nothing. */
  private static final double MOST_CAPITALS = 0.5;

  /** So many median distances of onsets after the onset before. */
  private static final double LONG = 1.5;

  private static final Pattern MARKS_BEFORE = Pattern.compile("^[^\\p{L}]+");
  private static final Pattern PUNCTUATION =
      Pattern.compile(".*[,.;:!?\u2014\u2013-]['\"\u2019\u201d)]*$");
  private static final Pattern FIRST_PERSON = Pattern.compile("I(['\u2019 ].*)?[,.;:!?]?");

  private VerseLines() {}

  /**
   * Indices of the notes on which lines begin, the first note with words among them; empty where
   * words or capitals are missing. Linear but for a sort.
   */
  public static List<Integer> beginnings(Solo solo) {
    List<Note> notes = solo.notes();
    double[] gaps = new double[Math.max(0, notes.size() - 1)];
    for (int i = 0; i < gaps.length; i++) {
      gaps[i] = notes.get(i + 1).onset().minus(notes.get(i).onset()).toDouble();
    }
    double[] sorted = gaps.clone();
    Arrays.sort(sorted);
    List<Integer> lines = new ArrayList<>();
    int words = 0;
    int capitals = 0;
    Syllable before = null;
    for (Note note : notes) {
      Syllable syllable = note.syllable();
      if (syllable == null) {
        continue;
      }
      if (syllable.beginsWord()) {
        String text = MARKS_BEFORE.matcher(syllable.text()).replaceFirst("");
        boolean capital = !text.isEmpty() && Character.isUpperCase(text.codePointAt(0));
        words++;
        capitals += capital ? 1 : 0;
        boolean punctuation = before != null && PUNCTUATION.matcher(before.text()).matches();
        boolean longNote =
            note.index() > 0 && gaps[note.index() - 1] >= LONG * sorted[sorted.length / 2];
        boolean begins =
            FIRST_PERSON.matcher(text).matches()
                ? punctuation && longNote
                : punctuation || longNote;
        if (before == null || capital && begins) {
          lines.add(note.index());
        }
      }
      before = syllable;
    }
    return capitals > MOST_CAPITALS * words || lines.size() < 2 ? List.of() : lines;
  }

  /** Share of the notes that have words, 0 to 1; 0 without notes. */
  public static double sungShare(Solo solo) {
    long sung = solo.notes().stream().filter(note -> note.syllable() != null).count();
    return solo.notes().isEmpty() ? 0 : sung / (double) solo.notes().size();
  }
}
