package phrasecensus.music.statistic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.score.Metre;

/** Invented rhythms, values from published patterns or worked by hand from the catalogue. */
class MovementStatisticsTest {
  private static SoloAnalysis rhythm(String notes, Integer... phraseStarts) {
    return Heard.inC(notes, "", phraseStarts);
  }

  /** Quarter and eighth in alternation: 66.67 in the manual of music21. */
  @Test
  void quarterAndEighthInAlternationHaveThePublishedContrast() {
    SoloAnalysis heard = rhythm("0:C4:1 1:D4:1/2 3/2:E4:1 5/2:F4:1/2 3:G4:1 4:A4:1");

    assertThat(Heard.solo(heard, "onset_gap_npvi")).isCloseTo(66.666667, within(1e-6));
    assertThat(Heard.solo(heard, "equal_gap_share")).isZero();
  }

  @Test
  void gapsAreNotPairedAcrossPhrasesNorAcrossARestOfABeat() {
    String notes = "0:C4:1 1:D4:1 2:E4:1 4:F4:1/2 9/2:G4:1/2 5:A4:1/2";

    assertThat(Heard.solo(rhythm(notes), "onset_gap_npvi")).isZero();
    assertThat(Heard.find(SoloStatistics.of(rhythm(notes)), "onset_gap_npvi").n()).isEqualTo(2);
    assertThat(Heard.find(SoloStatistics.of(rhythm(notes, 3)), "onset_gap_npvi").n()).isEqualTo(2);
  }

  @Test
  void shortRestBelongsToTheGap() {
    SoloAnalysis heard = rhythm("0:C4:1/2 1:D4:1/2 2:E4:1/2 3:F4:1");

    assertThat(Heard.find(SoloStatistics.of(heard), "onset_gap_npvi").n()).isEqualTo(2);
    assertThat(Heard.solo(heard, "rest_inside_share")).isEqualTo(1.5 / 4);
  }

  /** Longuet-Higgins and Lee (1984): pattern 10010010 has 2; the next bar line is played. */
  @Test
  void threeThreeTwoHasItsPublishedSyncopationInEachBar() {
    SoloAnalysis heard = rhythm("0:C4:3/2 3/2:C4:3/2 3:C4:1 4:C4:3/2 11/2:C4:3/2 7:C4:1 8:C4:4");

    assertThat(Heard.solo(heard, "syncopation_per_bar")).isEqualTo(4.0 / 3);
  }

  @Test
  void heldAndSilentBarLineCountAlike() {
    SoloAnalysis held = rhythm("0:C4:7/2 7/2:C4:1/2 4:C4:4");
    SoloAnalysis tied = rhythm("0:C4:7/2 7/2:C4:9/2");
    SoloAnalysis silent = rhythm("0:C4:7/2 7/2:C4:1/2 5:C4:3");

    assertThat(Heard.solo(held, "syncopation_per_bar")).isZero();
    assertThat(Heard.solo(tied, "syncopation_per_bar")).isEqualTo(3.0 / 2);
    assertThat(Heard.solo(silent, "syncopation_per_bar")).isEqualTo((3 + 2) / 2.0);
  }

  /** Son clave in quarters, D 0 8 4 2 0 (Gómez and others 2005), here closed by a bar line note. */
  @Test
  void sonClaveHasItsPublishedBeatDistance() {
    SoloAnalysis heard = rhythm("0:C4:3/4 3/4:C4:3/4 3/2:C4:1 5/2:C4:1/2 3:C4:1 4:C4:1");

    assertThat(Heard.solo(heard, "beat_distance")).isCloseTo(14 / 6.0, within(1e-12));
  }

  @ParameterizedTest(name = "{0}: anticipations {1}")
  @CsvSource({
    "0:C4:1/2 1/2:D4:1, .5",
    "0:C4:3/4 3/4:D4:1, .5",
    // it ends on the beat
    "0:C4:1/2 1/2:D4:1/2, 0",
    // more than half a beat before it
    "0:C4:1/3 1/3:D4:1, 0",
    // over the bar line
    "0:C4:1 7/2:D4:1, .5"
  })
  void anticipationIsHeldOverTheNextBeat(String notes, double expected) {
    assertThat(Heard.solo(rhythm(notes), "anticipation_share")).isEqualTo(expected);
  }

  @ParameterizedTest(name = "in {0}/{1} {2} of six eighths are off the beat")
  @CsvSource({"3, 4, 3", "6, 8, 4", "7, 8, 0", "3, 2, 4"})
  void beatDependsOnTheMetre(int beats, int beatType, int expected) {
    SoloAnalysis heard =
        Heard.inC(
            SoloText.solo(
                Metre.of(beats, beatType),
                4,
                "0:C4:1/2 1/2:C4:1/2 1:C4:1/2 3/2:C4:1/2 2:C4:1/2 5/2:C4:1/2",
                ""));

    assertThat(Heard.solo(heard, "off_beat_share")).isCloseTo(expected / 6.0, within(1e-12));
  }

  @Test
  void tiedSumIsAnotherValue() {
    SoloAnalysis heard = rhythm("0:C4:5/2 5/2:D4:3/2");

    assertThat(Heard.solo(heard, "value_share_other")).isEqualTo(.5);
    assertThat(Heard.solo(heard, "time_share_other")).isEqualTo(.625);
    assertThat(Heard.solo(heard, "value_share_dotted_quarter")).isEqualTo(.5);
    assertThat(Heard.solo(heard, "note_value_entropy")).isCloseTo(1, within(1e-12));
  }

  @ParameterizedTest(name = "a length of {0} counts under {1}")
  @CsvSource({
    "4, whole",
    "3, dotted_half",
    "3/4, dotted_eighth",
    "2/3, quarter_triplet",
    "1/6, sixteenth_triplet",
    "1/8, thirty_second"
  })
  void rareValuesHaveTheirOwnShare(String length, String word) {
    SoloAnalysis heard = rhythm("0:C4:" + length);

    assertThat(Heard.solo(heard, "value_share_" + word)).isEqualTo(1);
    assertThat(Heard.solo(heard, "time_share_" + word)).isEqualTo(1);
  }

  @Test
  void notesPerBeatCountsPhrasesAloneAndNotesPerBarTheSpaceToo() {
    SoloAnalysis heard = rhythm("0:C4:1 1:D4:1 6:E4:1 7:F4:1", 2);

    assertThat(Heard.solo(heard, "notes_per_beat")).isEqualTo(1);
    assertThat(Heard.solo(heard, "notes_per_bar")).isEqualTo(2);
  }
}
