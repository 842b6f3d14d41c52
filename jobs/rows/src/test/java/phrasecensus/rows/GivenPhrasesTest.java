package phrasecensus.rows;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import phrasecensus.music.phrase.GivenRule;
import phrasecensus.music.phrase.SilenceRule;
import phrasecensus.readers.Problem;

class GivenPhrasesTest {
  private static List<String> codes(GivenPhrases phrases) {
    return phrases.problems().stream().map(Problem::code).toList();
  }

  @Test
  void marksInOrderInsideTheLineAreNoProblem() {
    GivenPhrases phrases = GivenPhrases.of(List.of(0, 7, 35), 40);

    assertThat(phrases.rule()).isEqualTo(new GivenRule(List.of(0, 7, 35)));
    assertThat(phrases.problems()).isEmpty();
  }

  @Test
  void marksBeyondTheLineAreLeftOutAndSaid() {
    GivenPhrases phrases = GivenPhrases.of(List.of(0, 7, 40, 41), 40);

    assertThat(phrases.rule()).isEqualTo(new GivenRule(List.of(0, 7)));
    assertThat(phrases.problems())
        .containsExactly(
            Problem.ofFile(
                "phrase-marks-beyond-line",
                "phrase marks on notes 40, 41, but the line has 40 notes, counted from 0",
                "these marks were left out; look whether the marks are of this line at all"));
  }

  @Test
  void manyMarksBeyondTheLineAreCountedNotListed() {
    assertThat(GivenPhrases.of(List.of(0, 2, 3, 4, 5, 6, 7, 8), 1).problems().get(0).found())
        .isEqualTo(
            "phrase marks on notes 2, 3, 4, 5, 6 and 2 more, but the line has 1 note, counted"
                + " from 0");
  }

  @Test
  void marksOutOfOrderArePutInOrder() {
    GivenPhrases phrases = GivenPhrases.of(List.of(0, 35, 7), 40);

    assertThat(phrases.rule()).isEqualTo(new GivenRule(List.of(0, 7, 35)));
    assertThat(codes(phrases)).containsExactly("phrase-marks-out-of-order");
  }

  @Test
  void aDoubledMarkCountsOnce() {
    GivenPhrases phrases = GivenPhrases.of(List.of(0, 7, 7, 35), 40);

    assertThat(phrases.rule()).isEqualTo(new GivenRule(List.of(0, 7, 35)));
    assertThat(phrases.problems())
        .containsExactly(
            Problem.ofFile(
                "phrase-marks-doubled", "more than one phrase mark on note 7", "each counts once"));
  }

  @Test
  void aFirstMarkAfterTheFirstNoteIsSaid() {
    assertThat(GivenPhrases.of(List.of(4, 9), 40).problems())
        .containsExactly(
            Problem.ofFile(
                "phrase-marks-start-late",
                "the first phrase mark is on note 4, not on note 0",
                "the notes before it are a phrase of their own"));
  }

  @Test
  void marksOfWhichNoneIsLeftMakeOnePhrase() {
    assertThat(codes(GivenPhrases.of(List.of(60, 50), 40)))
        .containsExactly(
            "phrase-marks-out-of-order", "phrase-marks-beyond-line", "phrase-marks-start-late");
  }

  @Test
  void marksForALineWithoutNotesAreBeyondIt() {
    assertThat(codes(GivenPhrases.of(List.of(0), 0))).containsExactly("phrase-marks-beyond-line");
  }

  @Test
  void aLineWithoutMarksIsLeftToTheRuleAndSaid() {
    GivenPhrases phrases = GivenPhrases.none(SilenceRule.DEFAULT);

    assertThat(phrases.rule()).isEqualTo(SilenceRule.DEFAULT);
    assertThat(phrases.problems().get(0).done())
        .isEqualTo("its phrases were found by the rule silence");
  }
}
