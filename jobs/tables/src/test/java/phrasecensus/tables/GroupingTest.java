package phrasecensus.tables;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;

class GroupingTest {
  private static final Grouping TEMPO = Grouping.parse("tempo_qpm in 0 120 180 400");

  private static String group(Grouping grouping, Object... columnsAndValues) {
    Map<String, Object> values = new HashMap<>();
    for (int i = 0; i < columnsAndValues.length; i += 2) {
      values.put((String) columnsAndValues[i], columnsAndValues[i + 1]);
    }
    return grouping.group(values::get);
  }

  @Test
  void aBandHoldsItsLowerEdgeAndTheLastOneItsUpperEdgeToo() {
    assertThat(group(TEMPO, "tempo_qpm", 0.0)).isEqualTo("0 to below 120");
    assertThat(group(TEMPO, "tempo_qpm", 119.99)).isEqualTo("0 to below 120");
    assertThat(group(TEMPO, "tempo_qpm", 120.0)).isEqualTo("120 to below 180");
    assertThat(group(TEMPO, "tempo_qpm", 400.0)).isEqualTo("180 to 400");
  }

  @Test
  void whatIsInNoBandIsSaidToBe() {
    assertThat(group(TEMPO, "tempo_qpm", 401.0)).isEqualTo("(outside the bands)");
    assertThat(group(TEMPO)).isEqualTo("(none)");
    assertThat(group(Grouping.parse("year in 1940 1950"), "year", "ca. 1945"))
        .isEqualTo("(no number)");
    assertThat(group(Grouping.parse("year in 1940 1950"), "year", " 1945 "))
        .isEqualTo("1940 to 1950");
    // Read as a number it would take the memory of a house.
    assertThat(group(Grouping.parse("year in 1940 1950"), "year", "1e999999999"))
        .isEqualTo("(no number)");
  }

  @Test
  void crossedColumnsMakeAGroupOfBothValuesOrNone() {
    Grouping crossed = Grouping.parse("style x tempo_qpm in 100 200");

    assertThat(group(crossed, "style", "bop", "tempo_qpm", 150.0)).isEqualTo("bop / 100 to 200");
    assertThat(group(crossed, "tempo_qpm", 150.0)).isEqualTo("(none)");
    assertThat(crossed.name()).isEqualTo("style x tempo_qpm");
    assertThat(crossed.columns()).containsExactly("style", "tempo_qpm");
  }

  @Test
  void textReadsBackAsTheSameGrouping() {
    for (String text :
        new String[] {
          "style", "style x instrument", "tempo_qpm in 0 99.5 180", "a b x year in -1 0 1 x c"
        }) {
      assertThat(Grouping.parse(text).text()).isEqualTo(text);
      assertThat(Grouping.parse(Grouping.parse(text).text())).isEqualTo(Grouping.parse(text));
    }
  }

  @Test
  void aColumnMayBeCalledAsItLikes() {
    assertThat(Grouping.parse("made in Japan").columns()).containsExactly("made in Japan");
    assertThat(Grouping.parse("x").columns()).containsExactly("x");
  }

  @Test
  void bandsThatAreNoneAreRefusedWithTheReason() {
    assertThatThrownBy(() -> Grouping.parse("year in 1950 1940"))
        .isInstanceOf(InputException.class)
        .hasMessage(
            "Cannot group by bands of 'year': the edges 1950 and 1940 are not in ascending order.");
    assertThatThrownBy(() -> Grouping.parse("year in 1950 1950"))
        .hasMessageEndingWith("the edges 1950 and 1950 are not in ascending order.");
    assertThatThrownBy(() -> Grouping.parse("year in 1950"))
        .hasMessage(
            "Cannot group by bands of 'year': one edge makes no band. Give two or more, as in"
                + " [0, 120, 180, 400].");
    assertThatThrownBy(() -> Grouping.parse("year in 1950 now"))
        .hasMessage(
            "Cannot group by bands of 'year': the edge 'now' is no number. Write the edges as in"
                + " [0, 120, 180, 400].");
    assertThatThrownBy(() -> Grouping.parse("style x  x key"))
        .hasMessage("Cannot group by 'style x  x key': a column name is missing.");
  }
}
