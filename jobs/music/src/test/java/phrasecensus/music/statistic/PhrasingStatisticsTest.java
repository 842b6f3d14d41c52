package phrasecensus.music.statistic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.TempoChange;
import phrasecensus.music.time.Fraction;

/** Invented lines, values worked by hand from the formulas of the catalogue. */
class PhrasingStatisticsTest {
  private static Solo line(Metre metre, String notes) {
    return SoloText.solo(metre, 8, notes, "");
  }

  private static SoloAnalysis phrase(Metre metre, String notes) {
    return Heard.inC(line(metre, notes));
  }

  @ParameterizedTest(name = "{2} quarters are {3} bars and {4} beats of {0}/{1}")
  @CsvSource({
    "4, 4, 6, 1.5, 6",
    "3, 4, 6, 2, 6",
    "6, 8, 6, 2, 4",
    "5, 4, 6, 1.2, 6",
    "7, 8, 7, 2, 14",
    "2, 2, 6, 1.5, 3",
    "12, 8, 3, .5, 2"
  })
  void lengthIsCountedInBarsAndBeatsOfTheMetre(
      int beats, int beatType, String quarters, double inBars, double inBeats) {
    SoloAnalysis heard = phrase(Metre.of(beats, beatType), "0:C4:" + quarters);

    assertThat(Heard.phrase(heard, 0, "phrase_length_bars")).isEqualTo(inBars);
    assertThat(Heard.phrase(heard, 0, "phrase_length_beats")).isEqualTo(inBeats);
  }

  @Test
  void overChangingMetresThePartsAreAdded() {
    Solo solo =
        Heard.inBars(
            line(Metre.of(4, 4), "2:C4:2 4:D4:3 7:E4:1"),
            Metre.of(4, 4),
            Metre.of(3, 4),
            Metre.of(2, 4));

    SoloAnalysis heard = Heard.inC(solo);

    assertThat(Heard.phrase(heard, 0, "phrase_length_bars")).isEqualTo(.5 + 1 + .5);
    assertThat(Heard.phrase(heard, 0, "phrase_length_beats")).isEqualTo(6);
    assertThat(Heard.phrase(heard, 0, "phrase_bars_touched")).isEqualTo(3);
  }

  @Test
  void pickupCountsAsPartOfAFullBar() {
    Solo solo = SoloText.solo(Metre.of(4, 4), 2, Fraction.ONE, "0:C4:1 1:D4:2", "");

    SoloAnalysis heard = Heard.inC(solo);

    assertThat(Heard.phrase(heard, 0, "phrase_length_bars")).isEqualTo(.75);
    assertThat(Heard.phrase(heard, 0, "phrase_start_beat")).isEqualTo(4);
    assertThat(Heard.phrase(heard, 0, "phrase_starts_with_pickup")).isEqualTo(1);
    assertThat(Heard.phrase(heard, 0, "phrase_bars_touched")).isEqualTo(2);
  }

  @ParameterizedTest(name = "phrase {0}: pickup {1}")
  @CsvSource({
    // after the middle of the bar and over the bar line
    "3:C4:1 4:D4:1, 1",
    "5/2:C4:1/2 3:D4:1/2 4:E4:1, 1",
    // from the middle exactly
    "2:C4:1 4:D4:1, 0",
    // it only sounds over the bar line
    "3:C4:1/2 7/2:D4:2, 0",
    "0:C4:1 4:D4:1, 0"
  })
  void pickupStartsLateAndLeadsOverTheBarLine(String notes, double expected) {
    assertThat(Heard.phrase(phrase(Metre.of(4, 4), notes), 0, "phrase_starts_with_pickup"))
        .isEqualTo(expected);
  }

  @ParameterizedTest(name = "{0} quarters of 4/4 count under {1}")
  @CsvSource({
    "1, phrases_under_half_bar",
    "2, phrases_one_bar",
    "11/2, phrases_one_bar",
    "6, phrases_two_bars",
    "8, phrases_two_bars",
    "10, phrases_three_bars",
    "12, phrases_three_bars",
    "14, phrases_four_bars",
    "16, phrases_four_bars",
    "18, phrases_longer"
  })
  void lengthRoundsToWholeBarsHalvesUp(String quarters, String key) {
    assertThat(Heard.solo(phrase(Metre.of(4, 4), "0:C4:" + quarters), key)).isEqualTo(1);
  }

  @Test
  void halfAndDoubleLengthLieOneDoublingApart() {
    SoloAnalysis heard = Heard.inC("0:C4:1 4:D4:2 8:E4:4", "", 1, 2);

    assertThat(Heard.solo(heard, "phrase_length_variety")).isCloseTo(1, within(1e-12));
  }

  @Test
  void onePhraseHasNoVariety() {
    assertThat(Heard.solo(Heard.inC("0:C4:1", ""), "phrase_length_variety")).isNull();
  }

  @Test
  void runGoesOnOverARestShorterThanHalfABeatAndOverPhraseEnds() {
    SoloAnalysis heard = Heard.inC("0:C4:3/4 1:D4:3/4 2:E4:3/2 4:F4:1 5:G4:1", "", 1);

    assertThat(Heard.solo(heard, "longest_run_notes")).isEqualTo(3);
    assertThat(Heard.solo(heard, "longest_run_bars")).isEqualTo(3.5 / 4);
  }

  @Test
  void secondsFollowTheTempoChanges() {
    Solo solo =
        Heard.atTempo(
            line(Metre.of(4, 4), "0:C4:4 4:D4:4"),
            new TempoChange(Fraction.of(2), 120),
            new TempoChange(Fraction.of(6), 60));

    SoloAnalysis heard = Heard.inC(solo);

    assertThat(Heard.phrase(heard, 0, "phrase_length_seconds")).isCloseTo(5, within(1e-12));
    assertThat(Heard.phrase(heard, 0, "phrase_length_seconds"))
        .isCloseTo(solo.seconds(Fraction.ZERO, Fraction.of(8)).orElseThrow(), within(1e-12));
  }

  @Test
  void silenceWithSlashesInItIsUnknown() {
    Solo solo = Heard.withUnknown(line(Metre.of(4, 4), "0:C4:4 12:D4:4"), "4", "8");

    SoloAnalysis heard = Heard.inC(solo, 1);

    assertThat(Heard.phrase(heard, 0, "silence_after_beats")).isNull();
    assertThat(Heard.solo(heard, "sounding_share")).isEqualTo(8.0 / 12);
    assertThat(Heard.solo(heard, "phrases_per_8_bars")).isEqualTo(16.0 / 3);
    assertThat(Heard.solo(heard, "notes_per_bar")).isEqualTo(2.0 / 3);
  }

  @Test
  void silenceIsCountedInTheBeatsOfEachMetreItCrosses() {
    Solo solo =
        Heard.inBars(
            line(Metre.of(4, 4), "0:C4:3 7:D4:3/2"),
            Metre.of(4, 4),
            Metre.of(6, 8),
            Metre.of(6, 8));

    assertThat(Heard.phrase(Heard.inC(solo, 1), 0, "silence_after_beats")).isEqualTo(3);
  }

  @Test
  void lineWithoutRestsIsFullOfSound() {
    SoloAnalysis heard = Heard.inC("0:C4:1/3 1/3:D4:1/3 2/3:E4:1/3 1:F4:1/7 8/7:G4:6/7", "");

    assertThat(Heard.solo(heard, "sounding_share"))
        .isCloseTo(1, within(1e-12))
        .isLessThanOrEqualTo(1);
    assertThat(Heard.solo(heard, "rest_inside_share")).isZero();
  }
}
