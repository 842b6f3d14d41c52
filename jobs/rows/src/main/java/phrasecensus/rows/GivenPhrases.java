package phrasecensus.rows;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import phrasecensus.music.phrase.GivenRule;
import phrasecensus.music.phrase.PhraseRule;
import phrasecensus.readers.Problem;

/**
 * What phrase marks made by people give for one line, and what of them does not fit it.
 *
 * @param rule finds the phrases of this line
 * @param problems in the order of the checks; may be empty
 */
record GivenPhrases(PhraseRule rule, List<Problem> problems) {
  private static final int MOST_NAMED = 5;

  GivenPhrases {
    problems = List.copyOf(problems);
  }

  /**
   * Holds marks against a line.
   *
   * @param marks first notes of phrases as they stand in the file
   * @param notes notes of the line
   */
  static GivenPhrases of(List<Integer> marks, int notes) {
    List<Problem> problems = new ArrayList<>();
    TreeSet<Integer> once = new TreeSet<>();
    TreeSet<Integer> twice = new TreeSet<>();
    boolean inOrder = true;
    int before = -1;
    for (int mark : marks) {
      if (!once.add(mark)) {
        twice.add(mark);
      }
      inOrder &= mark >= before;
      before = mark;
    }
    if (!inOrder) {
      problems.add(
          Problem.ofFile(
              "phrase-marks-out-of-order",
              "the phrase marks are not in the order of the notes",
              "they were put in order"));
    }
    if (!twice.isEmpty()) {
      problems.add(
          Problem.ofFile(
              "phrase-marks-doubled",
              "more than one phrase mark on " + named(twice),
              "each counts once"));
    }
    TreeSet<Integer> beyond = new TreeSet<>(once.tailSet(notes));
    if (!beyond.isEmpty()) {
      problems.add(
          Problem.ofFile(
              "phrase-marks-beyond-line",
              "phrase marks on "
                  + named(beyond)
                  + ", but the line has "
                  + notes
                  + (notes == 1 ? " note" : " notes")
                  + ", counted from 0",
              "these marks were left out; look whether the marks are of this line at all"));
    }
    once.removeAll(beyond);
    if (notes > 0 && !once.contains(0)) {
      problems.add(
          Problem.ofFile(
              "phrase-marks-start-late",
              once.isEmpty()
                  ? "no phrase mark is left"
                  : "the first phrase mark is on note " + once.first() + ", not on note 0",
              once.isEmpty()
                  ? "the whole line is one phrase"
                  : "the notes before it are a phrase of their own"));
    }
    return new GivenPhrases(new GivenRule(List.copyOf(once)), problems);
  }

  /**
   * A line of which the marks say nothing.
   *
   * @param otherwise the rule that finds its phrases
   */
  static GivenPhrases none(PhraseRule otherwise) {
    return new GivenPhrases(
        otherwise,
        List.of(
            Problem.ofFile(
                "phrase-marks-missing",
                "the phrase marks of the study say nothing of this score",
                "its phrases were found by the rule " + otherwise.name())));
  }

  private static String named(TreeSet<Integer> notes) {
    List<String> first = notes.stream().limit(MOST_NAMED).map(String::valueOf).toList();
    return (notes.size() == 1 ? "note " : "notes ")
        + String.join(", ", first)
        + (notes.size() > MOST_NAMED ? " and " + (notes.size() - MOST_NAMED) + " more" : "");
  }
}
