package phrasecensus.tables;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What is a number is common practice; days are those of ISO 8601 in its extended form. */
class MetadataTypeTest {
  @ParameterizedTest
  @CsvSource({
    "integer, 1958 1960 -3 0",
    "number, 1958 0.5 -2.25 1e-3",
    "date, 1958-03-02 1960-02-29",
    "text, 1958 swing",
    "text, 1958 1960-02-29",
    "text, 1960-02-30",
    "text, 007 12",
    "text, +49 12",
    "text, '1,5'",
    "text, 1234567890123456789",
  })
  void aColumnIsWhatAllItsCellsAre(String type, String cells) {
    assertThat(MetadataType.in(List.of(cells.split(" "))).word()).isEqualTo(type);
  }

  @Test
  void blankCellsTellNothing() {
    assertThat(MetadataType.in(List.of(" ", "1958", ""))).isEqualTo(MetadataType.INTEGER);
  }

  @Test
  void aColumnWithoutCellsIsText() {
    assertThat(MetadataType.in(List.of(" "))).isEqualTo(MetadataType.TEXT);
  }

  @Test
  void valuesAreThoseOfTheTables() {
    assertThat(MetadataType.INTEGER.value(" 007 ")).isEqualTo(7L);
    assertThat(MetadataType.NUMBER.value("1.50")).isEqualTo(1.5);
    assertThat(MetadataType.DATE.value("1960-02-29")).isEqualTo(LocalDate.of(1960, 2, 29));
    assertThat(MetadataType.TEXT.value(" a ")).isEqualTo(" a ");
  }

  /** Two zeros that are equal would be two values in a file. */
  @Test
  void zeroHasNoSign() {
    assertThat(MetadataType.NUMBER.value("-0.0")).isEqualTo(0.0);
  }

  @ParameterizedTest
  @ValueSource(strings = {"ca. 1958", "1958.0", "1e3", "12345678901234567890", "١٩٥٨"})
  void whatIsNoWholeNumberHasNoValueAsOne(String cell) {
    assertThat(MetadataType.INTEGER.value(cell)).isNull();
  }

  @ParameterizedTest
  @ValueSource(strings = {"NaN", "Infinity", "0x10", "1.", "1,5", "1e999"})
  void whatIsNoNumberHasNoValueAsOne(String cell) {
    assertThat(MetadataType.NUMBER.value(cell)).isNull();
  }

  @ParameterizedTest
  @ValueSource(strings = {"14.3.2026", "2026-3-14", "2026-02-30", "2026"})
  void whatIsNoDayHasNoValueAsOne(String cell) {
    assertThat(MetadataType.DATE.value(cell)).isNull();
  }
}
