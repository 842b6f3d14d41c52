package phrasecensus.music.statistic;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.time.Fraction;

/**
 * Lengths of note values in quarter notes, as any primer of notation gives them (common practice).
 */
class NoteValueTest {
  @ParameterizedTest(name = "{0} quarters are a {1}")
  @CsvSource({
    "4, WHOLE",
    "3, DOTTED_HALF",
    "2, HALF",
    "3/2, DOTTED_QUARTER",
    "1, QUARTER",
    "2/3, QUARTER_TRIPLET",
    "3/4, DOTTED_EIGHTH",
    "1/2, EIGHTH",
    "1/3, EIGHTH_TRIPLET",
    "1/4, SIXTEENTH",
    "1/6, SIXTEENTH_TRIPLET",
    "1/8, THIRTY_SECOND",
    "5/2, OTHER",
    "7/4, OTHER",
    "2/5, OTHER",
    "4/3, OTHER",
    "8, OTHER",
    "1/16, OTHER"
  })
  void exactLengthTellsTheValue(String length, NoteValue expected) {
    assertThat(NoteValue.of(Fraction.parse(length))).isEqualTo(expected);
  }
}
