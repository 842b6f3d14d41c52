package phrasecensus.tables;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Eight solos of two styles; one without a year, one with a year that is a word. */
class MetadataChoiceTest {
  private static final List<String> FILES =
      List.of("a.xml", "b.xml", "c.xml", "d.xml", "e.xml", "f.xml", "g.xml", "h.xml");
  private static final Metadata METADATA =
      Metadata.read(
          "solos.csv",
          """
          file,style,year,date
          a.xml,swing,1938,2026-01-31
          b.xml,swing,1940,2026-02-01
          c.xml,bebop,1949,
          d.xml,bebop,1949.5,2026-02-28
          e.xml,bebop,,2026-03-01
          f.xml,swing,unknown,
          g.xml,modal,1959,2025-12-31
          """
              .getBytes(StandardCharsets.UTF_8),
          "",
          FILES);

  private static List<String> chosen(String... asked) {
    return MetadataChoice.of(List.of(asked)).of("corpus", FILES, METADATA);
  }

  @ParameterizedTest
  @CsvSource({
    "style=swing, a b f",
    "style=swing|modal, a b f g",
    "' Style = modal ', g",
    "year=1940..1949, b c",
    "year=1949.., c d g",
    "year=..1940, a b",
    "year=unknown, f",
    "date=2026-02-01..2026-02-28, b d",
    "date=2026..2026, a b d e",
    "date=..2025, g",
  })
  void aScoreIsChosenByWhatItsColumnHolds(String asked, String expected) {
    assertThat(chosen(asked))
        .containsExactly(
            List.of(expected.split(" ")).stream().map(f -> f + ".xml").toArray(String[]::new));
  }

  @Test
  void everyColumnMustHoldWhatIsWanted() {
    assertThat(chosen("style=bebop", "year=1949..")).containsExactly("c.xml", "d.xml");
  }

  @Test
  void withoutAChoiceEveryFileIsTakenEvenWithoutARow() {
    assertThat(MetadataChoice.ALL.of("corpus", FILES, METADATA)).isEqualTo(FILES);
  }

  @Test
  void aValueThatNoScoreHasIsTakenForAMistake() {
    assertThatThrownBy(() -> chosen("style=swing|bepob"))
        .isInstanceOf(InputException.class)
        .hasMessage(
            "Cannot choose among the files of the corpus: none has 'bepob' in its column 'style'."
                + " Did you mean 'bebop'? It holds: bebop, modal, swing.");
  }

  @Test
  void aColumnThatIsNotThereIsNamedWithThoseThatAre() {
    assertThatThrownBy(() -> chosen("stile=swing"))
        .hasMessageEndingWith("Did you mean 'style'? Columns: style, year, date.");
  }

  @Test
  void aChoiceThatLeavesNothingIsRefused() {
    assertThatThrownBy(() -> chosen("style=swing", "year=1950..1960"))
        .hasMessage(
            "Cannot choose among the files of the corpus: none of 8 has style: swing; year: 1950 to"
                + " 1960. Ask for less.");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "style",
        "style=",
        "=swing",
        "year=1949..1940",
        "year=..",
        "year=1940..2026-01-01"
      })
  void whatCannotBeUnderstoodIsRefused(String asked) {
    assertThatThrownBy(() -> MetadataChoice.of(List.of(asked)))
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith("Cannot choose by '" + asked + "'");
  }

  @Test
  void aColumnAskedForTwiceIsRefused() {
    assertThatThrownBy(() -> MetadataChoice.of(List.of("style=swing", "Style=bebop")))
        .hasMessageContaining("asked for twice");
  }

  @Test
  void theRecordOfAChoiceDoesNotDependOnItsOrder() {
    assertThat(MetadataChoice.of(List.of("year=1940..", "style=swing|bebop")).text())
        .isEqualTo(MetadataChoice.of(List.of("style=bebop|swing", "year=1940..")).text())
        .isEqualTo("{\"style\":[\"bebop\",\"swing\"],\"year\":{\"from\":\"1940\"}}");
  }
}
