package phrasecensus.tables;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DecimalTextTest {
  /**
   * 2.0E-3 and 2.2250738585072014E-308 are the examples of JDK-4511638, of which {@code
   * Double.toString} before Java 19 wrote too many digits.
   */
  @ParameterizedTest(name = "{0} is {1}")
  @CsvSource({
    "0.0, 0",
    "-0.0, 0",
    "4.0, 4",
    "-3.5, -3.5",
    "0.1, 0.1",
    "0.3333333333333333, 0.3333333333333333",
    "0.6666666666666666, 0.6666666666666666",
    "2.0E-3, 0.002",
    "2.0E-9, 2E-9",
    "2.2250738585072014E-308, 2.2250738585072014E-308",
    "9007199254740993, 9007199254740992",
    "1.0E22, 1E+22"
  })
  void aNumberHasTheFewestDigitsThatGiveItBack(double value, String text) {
    assertThat(DecimalText.of(value)).isEqualTo(text);
  }

  @Test
  void everyDoubleIsGivenBack() {
    Random random = new Random(1125);
    for (int i = 0; i < 100_000; i++) {
      double value =
          i % 2 == 0
              ? Double.longBitsToDouble(random.nextLong())
              : random.nextInt(1000) / (double) (1 + random.nextInt(1000));
      if (!Double.isNaN(value) && !Double.isInfinite(value)) {
        assertThat(Double.parseDouble(DecimalText.of(value))).as("case " + i).isEqualTo(value);
      }
    }
  }

  @Test
  void whatIsNotFiniteIsRefused() {
    assertThatThrownBy(() -> DecimalText.of(Double.NaN))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid decimal: NaN");
  }
}
