package phrasecensus.music.statistic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.score.Mark;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/**
 * Six invented phrases over two choruses of a twelve-bar blues, counted by hand. They start in bars
 * 1, 5 (with a pickup in bar 4), 8 and 11 of the first chorus, 5 (with a pickup) and 10 of the
 * second; their last notes start in bars 2, 8 and 9 of the first, 2, 8 and 11 of the second.
 */
class FormStatisticsTest {
  /** The statistics that are worked here, none of them nothing. */
  static final List<String> PLACES =
      List.of(
          "phrase_starts_four_bar_group",
          "phrase_ends_four_bar_group",
          "phrase_starts_section",
          "phrase_crosses_section",
          "phrase_crosses_chorus");

  private static final Solo BLUES =
      SoloText.solo(
          Metre.of(4, 4),
          24,
          "0:C4:1 4:C4:1 15:C4:1 16:C4:1 28:C4:1 30:C4:1 32:C4:1 40:C4:1 52:C4:1"
              + " 127/2:C4:1/2 64:C4:1 76:C4:1 84:C4:1 88:C4:1",
          chorus(0) + chorus(48));

  private static String chorus(int at) {
    return String.format(
        "%d:F7 %d:Bb7 %d:F7 %d:C7 %d:Bb7 %d:F7 ", at, at + 16, at + 24, at + 32, at + 36, at + 40);
  }

  private static SoloAnalysis heard(Solo solo) {
    return Heard.inC(solo, 2, 5, 7, 9, 12);
  }

  @Test
  void placesInABluesAreCounted() {
    List<StatisticValue> values = SoloStatistics.of(heard(BLUES));

    assertThat(PLACES.stream().map(key -> Heard.find(values, key)))
        .extracting(value -> value.value() * value.n(), StatisticValue::n)
        .containsExactly(tuple(3.0, 6), tuple(2.0, 6), tuple(1.0, 6), tuple(1.0, 6), tuple(1.0, 6));
  }

  /**
   * With a mark on bar 9 of the first chorus the third phrase crosses a line, the next starts late.
   */
  @ParameterizedTest(name = "{0} is {1} of {2}")
  @CsvSource({
    "phrase_starts_section, 1, 6",
    "phrase_crosses_section, 2, 6",
    "phrase_crosses_chorus, 1, 6"
  })
  void rehearsalMarkIsALineBetweenSections(String key, int part, int whole) {
    List<Mark> marks = new ArrayList<>();
    for (int bar : new int[] {0, 8}) {
      Fraction at = Fraction.of(4L * bar);
      marks.add(new Mark(Mark.Kind.REHEARSAL, at, at, bar == 0 ? "A" : "B"));
    }
    Solo marked =
        new Solo(
            BLUES.description(),
            BLUES.bars(),
            BLUES.notes(),
            List.of(),
            BLUES.chords(),
            List.of(),
            List.of(),
            marks,
            List.of(),
            List.of());

    StatisticValue value = Heard.find(SoloStatistics.of(heard(marked)), key);

    assertThat(value.value()).isEqualTo((double) part / whole);
    assertThat(value.n()).isEqualTo(whole);
  }

  @Test
  void phraseInAPickupAloneHasNoPlace() {
    Solo solo =
        SoloText.solo(Metre.of(4, 4), 12, Fraction.of(2), "0:C4:1 2:C4:1 6:C4:1", chorus(2));

    StatisticValue value =
        Heard.find(SoloStatistics.of(Heard.inC(solo, 1)), "phrase_starts_four_bar_group");

    assertThat(value.n()).isEqualTo(1);
    assertThat(value.value()).isEqualTo(1);
  }
}
