package phrasecensus.music.statistic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.TempoChange;
import phrasecensus.music.time.Fraction;

/**
 * Invented phrases whose statistics were worked out by hand from the formulas of the catalogue;
 * logarithms by an independent script. Three phrases have every statistic; five more have those
 * that are nothing or everything in the first three, so that a count that never moves is found.
 */
class WorkedSoloTest {
  static final SoloAnalysis SOLO =
      Heard.inC(
          Heard.atTempo(
              SoloText.solo(
                  Metre.of(4, 4),
                  5,
                  """
                  0:C4:1/2 1/2:D4:1/2 1:E4:1/2 3/2:F4:1/2 2:C4:1
                  4:B3:1/2 9/2:D4:1/2 5:F4:1/2 11/2:E4:1/2 6:D4:2
                  23/2:G#4:1/2 12:A4:1/3 37/3:B4:1/3 38/3:C5:1/3 13:D5:1/2 27/2:F5:1
                  15:D5:1/4 61/4:C5:1/4 31/2:B4:5/2
                  """,
                  "0:Dm7 4:G7 12:Cmaj7 16:Em7"),
              new TempoChange(Fraction.ZERO, 120)),
          5,
          10);

  private static final String SOLO_VALUES =
      """
      landing_chord_tone_share       3/4            4
      phrase_ends_on_chord_tone      1              3
      before_rest_chord_tone_share   0              1
      held_chord_tone_share          1              2
      chord_arrival_chord_tone_share 0              1
      phrase_ends_on_root            0              3
      phrase_ends_on_third           0              3
      phrase_ends_on_fifth           2/3            3
      phrase_ends_on_seventh         1/3            3
      phrase_ends_on_other           0              3
      phrase_ends_on_guide_tone      1/3            3
      chord_tone_share               12/19          19
      chord_tone_time_share          .7243589744    19
      chord_tone_share_beat_one      2/3            3
      chord_tone_share_other_beats   3/6            6
      chord_tone_share_off_beat      7/10           10
      written_tension_share          0              19
      centre_scale_share             18/19          19
      centre_scale_chance            7/12           19
      chord_tone_at_change_share     2/3            3
      guide_tone_at_change_share     1/3            3
      guide_tone_resolution_share    1              1
      next_guide_tone_share          1              1
      approach_chromatic_share       1/5            5
      approach_step_share            2/5            5
      approach_enclosure_share       0              5
      approach_leap_share            2/5            5
      approach_repetition_share      0              5
      enclosed_on_beat_share         0              3
      outside_share                  1/19           19
      unexplained_outside_share      0              19
      in_key_share                   18/19          19
      other_scale_excess             0              19
      resting_chord_tone_share       3/4            4
      value_share_whole              0              19
      value_share_dotted_half        0              19
      value_share_half               1/19           19
      value_share_dotted_quarter     0              19
      value_share_quarter            2/19           19
      value_share_quarter_triplet    0              19
      value_share_dotted_eighth      0              19
      value_share_eighth             10/19          19
      value_share_eighth_triplet     3/19           19
      value_share_sixteenth          2/19           19
      value_share_sixteenth_triplet  0              19
      value_share_thirty_second      0              19
      value_share_other              1/19           19
      time_share_whole               0              19
      time_share_dotted_half         0              19
      time_share_half                2/13           19
      time_share_dotted_quarter      0              19
      time_share_quarter             2/13           19
      time_share_quarter_triplet     0              19
      time_share_dotted_eighth       0              19
      time_share_eighth              5/13           19
      time_share_eighth_triplet      1/13           19
      time_share_sixteenth           1/26           19
      time_share_sixteenth_triplet   0              19
      time_share_thirty_second       0              19
      time_share_other               5/26           19
      note_value_entropy             2.0387607529   19
      notes_per_bar                  38/9           19
      notes_per_second               19/9           19
      onset_gap_eighth_share         10/16          16
      notes_per_beat                 38/27          19
      onset_gap_npvi                 24.8351648352  13
      equal_gap_share                9/13           13
      off_beat_share                 10/19          19
      anticipation_share             2/19           19
      syncopation_per_bar            16/9           19
      beat_distance                  26/19          19
      rest_inside_share              1/27           19
      eighth_or_shorter_share        15/19          19
      phrase_length_bars             1              3
      phrase_length_beats            4              3
      phrase_length_seconds          2              3
      phrase_onset_span_bars         1/2            3
      phrase_bars_touched            1              3
      phrase_notes                   5              3
      phrase_starts_on_beat          2/3            3
      phrase_ends_on_beat            2/3            3
      phrase_starts_with_pickup      1/3            3
      phrase_starts_beat_1           2/3            3
      phrase_starts_beat_2           0              3
      phrase_starts_beat_3           0              3
      phrase_starts_beat_4           1/3            3
      phrase_ends_beat_1             0              3
      phrase_ends_beat_2             0              3
      phrase_ends_beat_3             2/3            3
      phrase_ends_beat_4             1/3            3
      phrase_starts_four_bar_group   -              0
      phrase_ends_four_bar_group     -              0
      phrase_starts_section          -              0
      phrase_crosses_section         -              0
      phrase_crosses_chorus          -              0
      silence_after_beats            9/4            2
      silence_after_seconds          9/8            2
      phrases_under_half_bar         0              3
      phrases_one_bar                2/3            3
      phrases_two_bars               1/3            3
      phrases_three_bars             0              3
      phrases_four_bars              0              3
      phrases_longer                 0              3
      phrase_length_variety          .5637909404    3
      longest_run_notes              6              19
      longest_run_bars               1              19
      phrase_count                   3              3
      phrases_per_8_bars             16/3           3
      sounding_share                 13/18          19
      unbroken_time_share            0              4
      scrap_time_share               9/13           4
      longest_stretch_bars           1              4
      short_stretch_share            3/4            4
      phrase_range                   6              3
      solo_range                     18             19
      mean_interval                  17/8           16
      interval_variability           51.1911180301  16
      repetition_share               0              16
      step_share                     11/16          16
      semitone_share                 5/16           16
      skip_share                     4/16           16
      leap_share                     1/16           16
      ascending_share                10/16          16
      direction_change_share         3/13           13
      peak_place                     1/2            3
      contour_descending             0              3
      contour_convex                 1              3
      contour_ascending              0              3
      contour_concave                0              3
      contour_other                  0              3
      pitch_class_entropy            2.6100635409   19
      pitch_class_entropy_corrected  2.8378574947   19
      interval_entropy               2.6556390623   16
      pattern_recurrence             0              7
      pattern_recurrence_varied      0              7
      """;

  private static final SoloAnalysis UNBROKEN =
      Heard.inC(
          SoloText.solo(
              Metre.of(4, 4),
              7,
              "0:C4:4 4:D4:4 8:E4:4 12:F4:4 16:G4:4 21:A4:4 26:B4:2",
              "0:Cmaj7 8:Am7"));

  private static final String UNBROKEN_VALUES =
      """
      chord_arrival_chord_tone_share 1              1
      in_key_share                   1              7
      other_scale_excess             0              7
      resting_chord_tone_share       4/7            7
      eighth_or_shorter_share        0              7
      unbroken_time_share            10/13          7
      scrap_time_share               1/13           7
      longest_stretch_bars           5              3
      short_stretch_share            1/3            3
      """;

  private static final SoloAnalysis FIVE_PHRASES =
      Heard.inC(
          SoloText.solo(
              Metre.of(4, 4),
              14,
              """
              1:E5:3/2 5/2:C5:1/2 4:B4:3 7:A4:2/3 23/3:A4:2/3 25/3:G4:2/3 12:C4:1
              14:C4:1/8 113/8:D4:1/8 57/4:E4:3/4
              16:G4:4 20:F#4:1 21:G4:2 23:E4:1 24:C4:1 25:D4:3/2 53/2:B3:1/2
              27:C4:1/6 163/6:D4:1/6 82/3:E4:1/6 29:Db5:1
              32:D4:1 33:F#4:1 34:A4:1 35:C5:1 36:E5:1 46:D4:1 47:F#4:1 48:A4:1 49:C5:1 50:E5:1
              53:D4:1 54:A4:1 55:A4:1
              """,
              "0:Cmaj7 16:G7 32:D9"),
          7,
          10,
          21,
          31);

  private static final String FIVE_PHRASES_VALUES =
      """
      before_rest_chord_tone_share   2/4            4
      phrase_ends_on_chord_tone      3/5            5
      phrase_ends_on_root            1/5            5
      phrase_ends_on_third           1/5            5
      phrase_ends_on_fifth           1/5            5
      phrase_ends_on_seventh         0              5
      phrase_ends_on_other           2/5            5
      written_tension_share          2/34           34
      approach_chromatic_share       1/12           12
      approach_step_share            4/12           12
      approach_enclosure_share       1/12           12
      approach_leap_share            5/12           12
      approach_repetition_share      1/12           12
      enclosed_on_beat_share         1/11           11
      outside_share                  2/34           34
      unexplained_outside_share      1/34           34
      other_scale_excess             1/34           34
      value_share_whole              1/34           34
      value_share_dotted_half        1/34           34
      value_share_half               1/34           34
      value_share_dotted_quarter     2/34           34
      value_share_quarter            18/34          34
      value_share_quarter_triplet    3/34           34
      value_share_dotted_eighth      1/34           34
      value_share_eighth             2/34           34
      value_share_sixteenth_triplet  3/34           34
      value_share_thirty_second      2/34           34
      time_share_whole               8/69           34
      time_share_dotted_half         6/69           34
      time_share_half                4/69           34
      time_share_dotted_quarter      6/69           34
      time_share_quarter             36/69          34
      time_share_quarter_triplet     4/69           34
      time_share_dotted_eighth       1/46           34
      time_share_eighth              2/69           34
      time_share_sixteenth_triplet   1/69           34
      time_share_thirty_second       1/138          34
      phrase_starts_beat_1           2/5            5
      phrase_starts_beat_2           2/5            5
      phrase_starts_beat_3           1/5            5
      phrase_starts_beat_4           0              5
      phrase_ends_beat_1             1/5            5
      phrase_ends_beat_2             1/5            5
      phrase_ends_beat_3             2/5            5
      phrase_ends_beat_4             1/5            5
      phrases_under_half_bar         1/5            5
      phrases_one_bar                1/5            5
      phrases_two_bars               0              5
      phrases_three_bars             1/5            5
      phrases_four_bars              1/5            5
      phrases_longer                 1/5            5
      repetition_share               2/29           29
      contour_descending             1/5            5
      contour_convex                 0              5
      contour_ascending              2/5            5
      contour_concave                1/5            5
      contour_other                  1/5            5
      pattern_recurrence             2/16           16
      pattern_recurrence_varied      2/16           16
      """;

  private static final String LAST_PHRASE_VALUES =
      """
      landing_chord_tone_share   1/2            2
      phrase_ends_on_chord_tone  1              1
      phrase_ends_on_root        0              1
      phrase_ends_on_third       0              1
      phrase_ends_on_fifth       1              1
      phrase_ends_on_seventh     0              1
      phrase_ends_on_other       0              1
      phrase_ends_on_guide_tone  0              1
      chord_tone_share           4/9            9
      chord_tone_time_share      41/72          9
      centre_scale_share         8/9            9
      centre_scale_chance        7/12           9
      outside_share              1/9            9
      unexplained_outside_share  0              9
      value_share_eighth         2/9            9
      notes_per_beat             18/13          9
      onset_gap_npvi             46.1224489796  7
      equal_gap_share            3/7            7
      off_beat_share             6/9            9
      anticipation_share         2/9            9
      syncopation_per_bar        40/13          9
      beat_distance              2              9
      rest_inside_share          1/13           9
      phrase_length_bars         13/8           1
      phrase_length_beats        13/2           1
      phrase_length_seconds      13/4           1
      phrase_onset_span_bars     1              1
      phrase_bars_touched        3              1
      phrase_notes               9              1
      phrase_start_beat          9/2            1
      phrase_end_beat            9/2            1
      phrase_starts_on_beat      0              1
      phrase_ends_on_beat        0              1
      phrase_starts_with_pickup  1              1
      silence_after_beats        -              0
      silence_after_seconds      -              0
      phrase_range               9              1
      mean_interval              15/8           8
      interval_variability       44.5078912215  8
      repetition_share           0              8
      step_share                 6/8            8
      semitone_share             3/8            8
      skip_share                 2/8            8
      leap_share                 0              8
      ascending_share            5/8            8
      direction_change_share     1/7            7
      peak_place                 1/2            1
      """;

  private static List<Arguments> rows(String table) {
    return Arrays.stream(table.strip().split("\n"))
        .map(line -> line.strip().split("\\s+"))
        .map(row -> Arguments.of(row[0], row[1], Integer.parseInt(row[2])))
        .toList();
  }

  static List<Arguments> soloValues() {
    return rows(SOLO_VALUES);
  }

  static List<Arguments> unbrokenValues() {
    return rows(UNBROKEN_VALUES);
  }

  static List<Arguments> fivePhrasesValues() {
    return rows(FIVE_PHRASES_VALUES);
  }

  static List<Arguments> lastPhraseValues() {
    return rows(LAST_PHRASE_VALUES);
  }

  @ParameterizedTest(name = "{0} is {1} of {2}")
  @MethodSource("soloValues")
  void soloHasTheValueWorkedByHand(String key, String expected, int n) {
    assertValue(Heard.find(SoloStatistics.of(SOLO), key), expected, n);
  }

  @ParameterizedTest(name = "{0} is {1} of {2}")
  @MethodSource("unbrokenValues")
  void lineThatHardlyBreathesHasTheValueWorkedByHand(String key, String expected, int n) {
    assertValue(Heard.find(SoloStatistics.of(UNBROKEN), key), expected, n);
  }

  @ParameterizedTest(name = "{0} is {1} of {2}")
  @MethodSource("fivePhrasesValues")
  void fivePhrasesHaveTheValueWorkedByHand(String key, String expected, int n) {
    assertValue(Heard.find(SoloStatistics.of(FIVE_PHRASES), key), expected, n);
  }

  @ParameterizedTest(name = "{0} is {1} of {2}")
  @MethodSource("lastPhraseValues")
  void lastPhraseHasTheValueWorkedByHand(String key, String expected, int n) {
    assertValue(Heard.find(PhraseStatistics.of(SOLO, SOLO.phrases().get(2)), key), expected, n);
  }

  private static void assertValue(StatisticValue actual, String expected, int n) {
    assertThat(actual.n()).isEqualTo(n);
    if (expected.equals("-")) {
      assertThat(actual.value()).isNull();
      return;
    }
    double value =
        expected.contains(".") ? Double.parseDouble(expected) : Fraction.parse(expected).toDouble();
    assertThat(actual.value()).isCloseTo(value, within(1e-9));
  }

  @Test
  void everyStatisticOfTheCatalogueIsWorked() {
    assertThat(soloValues().stream().map(row -> row.get()[0]).toList())
        .isEqualTo(StatisticKeys.soloLevel());
    assertThat(lastPhraseValues().stream().map(row -> row.get()[0]).toList())
        .isEqualTo(StatisticKeys.phraseLevel());
  }

  /** Of the places in the form {@link FormStatisticsTest} has the values. */
  @Test
  void everyStatisticIsWorkedWhereItIsNotNothing() {
    Set<Object> worked = new HashSet<>(FormStatisticsTest.PLACES);
    for (List<Arguments> rows :
        List.of(soloValues(), unbrokenValues(), fivePhrasesValues(), lastPhraseValues())) {
      for (Arguments row : rows) {
        if (!Set.of("0", "-").contains(row.get()[1])) {
          worked.add(row.get()[0]);
        }
      }
    }

    Set<String> all = new HashSet<>(StatisticKeys.soloLevel());
    all.addAll(StatisticKeys.phraseLevel());
    assertThat(worked).containsAll(all);
  }

  @ParameterizedTest(name = "{0} starts on beat {1} and its last note on beat {2}")
  @CsvSource({"0, 1, 3", "1, 1, 3", "2, 4.5, 4.5"})
  void beatsOfStartAndEndCountFromOne(int phrase, double start, double end) {
    assertThat(Heard.phrase(SOLO, phrase, "phrase_start_beat")).isEqualTo(start);
    assertThat(Heard.phrase(SOLO, phrase, "phrase_end_beat")).isEqualTo(end);
  }

  @ParameterizedTest(name = "phrase {0} is followed by {1} beats of silence")
  @CsvSource({"0, 1, .5", "1, 3.5, 1.75"})
  void silenceLastsToTheNextPhrase(int phrase, double beats, double seconds) {
    assertThat(Heard.phrase(SOLO, phrase, "silence_after_beats")).isEqualTo(beats);
    assertThat(Heard.phrase(SOLO, phrase, "silence_after_seconds")).isEqualTo(seconds);
  }
}
