package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.time.Fraction;

class SoloTextTest {
  @ParameterizedTest(name = "{0} is {1}")
  @CsvSource({"1, 1", "9/2, 4+1/2", "14/3, 4+2/3", "1/3, 1/3", "13/12, 1+1/12", "0, 0"})
  void numbersAreWholeAndPart(String number, String text) {
    assertThat(SoloText.mixed(Fraction.parse(number))).isEqualTo(text);
  }

  @Test
  void aLongBarGoesOnInFurtherRows() {
    List<String> notes = Collections.nCopies(30, "1+1/2:B♭4(1/2)");

    List<String> rows = SoloText.lines(notes, 66);

    assertThat(rows).hasSize(8).allMatch(row -> row.length() <= 66);
    assertThat(String.join(" ", rows)).isEqualTo(String.join(" ", notes));
  }

  @Test
  void aWordLongerThanTheWidthHasARowOfItsOwn() {
    assertThat(SoloText.lines(List.of("C7", "F♯maj13(♯11)", "G"), 4))
        .containsExactly("C7", "F♯maj13(♯11)", "G");
  }

  @Test
  void anEmptyBarHasNoRowsOfNotes() {
    assertThat(SoloText.lines(List.of(), 66)).isEmpty();
  }
}
