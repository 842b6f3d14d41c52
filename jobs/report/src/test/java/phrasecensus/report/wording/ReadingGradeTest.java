package phrasecensus.report.wording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ReadingGradeTest {
  /** Six words of one syllable: .39 · 6 + 11.8 · 1 − 15.59. */
  @Test
  void aSentenceOfOneSyllableWordsLiesBelowSchool() {
    assertThat(ReadingGrade.of("The cat sat on the mat.")).isCloseTo(-1.45, within(1e-9));
  }

  /**
   * Thirteen words with 24 syllables: .39 · 13 + 11.8 · 24 / 13 − 15.59. An example of
   * encyclopaedias, which give 11.3 for it (from memory).
   */
  @Test
  void aSentenceOfLongWordsLiesHigh() {
    assertThat(
            ReadingGrade.of(
                "The Australian platypus is seemingly a hybrid of a mammal and reptilian"
                    + " creature."))
        .isCloseTo(11.27, within(.01));
  }

  /** As dictionaries part them, from memory. */
  @ParameterizedTest
  @CsvSource({
    "solo, 2",
    "phrase, 1",
    "breathe, 1",
    "breath, 1",
    "notes, 1",
    "landing, 2",
    "eighths, 1",
    "octave, 2",
    "idea, 3",
    "piano, 3",
    "quiet, 2",
    "music, 2",
    "musician, 3",
    "minute, 2",
    "rhythm, 1",
    "little, 2",
    "single, 2",
    "ringed, 1",
    "rested, 2",
    "played, 1",
    "pieces, 2",
    "choruses, 3",
    "changes, 2",
    "question, 2",
    "answer, 2",
    "doctor, 2",
    "teacher, 2",
    "instrument, 3",
    "signature, 3",
    "major, 2",
    "minor, 2",
    "away, 2",
    "before, 2",
    "people, 2",
    "creature, 2",
    "reptilian, 3",
    "ten, 1",
    "seven, 2",
    "home, 1",
    "the, 1",
    "I, 1",
    "don't, 1",
    "7, 2",
    "100, 5"
  })
  void syllablesAreCountedBySpelling(String word, int syllables) {
    assertThat(ReadingGrade.syllables(word)).isEqualTo(syllables);
  }

  @Test
  void nameOfNotesAreNoWords() {
    assertThat(ReadingGrade.words("Play G A B♭ C♯ D. A bar."))
        .containsExactly("Play", "A", "A", "bar");
  }
}
