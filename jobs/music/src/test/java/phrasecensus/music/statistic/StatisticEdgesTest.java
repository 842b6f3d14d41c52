package phrasecensus.music.statistic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.harmony.NoteHarmonies;
import phrasecensus.music.harmony.TonalCentre;
import phrasecensus.music.harmony.TonalCentreSpan;
import phrasecensus.music.landing.RestingNotes;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.TempoChange;
import phrasecensus.music.time.Fraction;

/** What is undefined where, and what holds for every line. */
class StatisticEdgesTest {
  private static final List<String> NEED_TEMPO =
      List.of("notes_per_second", "phrase_length_seconds", "silence_after_seconds");

  private static final List<String> NEED_FORM =
      List.of(
          "phrase_starts_four_bar_group",
          "phrase_ends_four_bar_group",
          "phrase_starts_section",
          "phrase_crosses_section",
          "phrase_crosses_chorus");

  /** What is undefined beside the places in the form: no solo of this class has a known form. */
  private static List<String> undefined(SoloAnalysis analysis) {
    return keys(
        SoloStatistics.of(analysis),
        value -> value.value() == null && !NEED_FORM.contains(value.key()));
  }

  @Test
  void withoutMarksAndRecurringChordsPlacesInTheFormAreMissing() {
    assertThat(keys(SoloStatistics.of(WorkedSoloTest.SOLO), value -> value.value() == null))
        .isEqualTo(NEED_FORM);
  }

  private static List<String> keys(
      List<StatisticValue> values, Predicate<StatisticValue> condition) {
    return values.stream().filter(condition).map(StatisticValue::key).toList();
  }

  private static Solo atTempo(Solo solo) {
    return Heard.atTempo(solo, new TempoChange(Fraction.ZERO, 100));
  }

  @Test
  void soloWithoutNotesHasEveryKeyUndefined() {
    List<StatisticValue> values = SoloStatistics.of(Heard.inC("", "0:C"));

    assertThat(values).extracting(StatisticValue::key).isEqualTo(StatisticKeys.soloLevel());
    assertThat(values).allMatch(value -> value.value() == null && value.n() == 0);
  }

  @Test
  void undefinedValueHasNothingCounted() {
    List<StatisticValue> values = SoloStatistics.of(Heard.inC("0:C4:1 1:D4:1", ""));

    assertThat(keys(values, value -> value.value() == null && value.n() != 0)).isEmpty();
    assertThat(keys(values, value -> value.value() != null && value.n() == 0)).isEmpty();
  }

  @Test
  void oneNoteLacksWhatNeedsTwo() {
    SoloAnalysis heard = Heard.inC(atTempo(SoloText.solo(Metre.of(4, 4), 2, "0:E4:2", "0:C")));

    assertThat(undefined(heard))
        .containsExactly(
            "before_rest_chord_tone_share",
            "chord_arrival_chord_tone_share",
            "chord_tone_share_other_beats",
            "chord_tone_share_off_beat",
            "chord_tone_at_change_share",
            "guide_tone_at_change_share",
            "guide_tone_resolution_share",
            "next_guide_tone_share",
            "approach_chromatic_share",
            "approach_step_share",
            "approach_enclosure_share",
            "approach_leap_share",
            "approach_repetition_share",
            "enclosed_on_beat_share",
            "onset_gap_eighth_share",
            "onset_gap_npvi",
            "equal_gap_share",
            "silence_after_beats",
            "silence_after_seconds",
            "phrase_length_variety",
            "mean_interval",
            "interval_variability",
            "repetition_share",
            "step_share",
            "semitone_share",
            "skip_share",
            "leap_share",
            "ascending_share",
            "direction_change_share",
            "peak_place",
            "contour_descending",
            "contour_convex",
            "contour_ascending",
            "contour_concave",
            "contour_other",
            "interval_entropy",
            "pattern_recurrence",
            "pattern_recurrence_varied");
  }

  @Test
  void withoutTempoOnlySecondsAreMissing() {
    Solo timed = WorkedSoloTest.SOLO.solo();

    assertThat(undefined(Heard.inC(timed, 5, 10))).isEmpty();
    assertThat(undefined(Heard.inC(Heard.atTempo(timed), 5, 10))).isEqualTo(NEED_TEMPO);
  }

  @Test
  void withoutChordsAndCentreTheWholeFacetHarmonyIsMissingButApproaches() {
    Solo solo =
        atTempo(
            SoloText.solo(
                Metre.of(4, 4), 4, "0:C4:1 1:D4:1 2:E4:1 3:F4:1 4:C4:1 6:E4:1 7:C4:1", ""));
    SoloAnalysis found = Heard.analyse(solo, Optional.empty(), 5);
    SoloAnalysis heard =
        new SoloAnalysis(
            solo,
            List.of(),
            TonalCentre.UNKNOWN,
            null,
            TonalCentreSpan.Source.NONE,
            NoteHarmonies.find(solo, true, List.of()),
            found.phrases(),
            found.landings(),
            found.form(),
            found.stretches(),
            found.rule(),
            RestingNotes.find(solo, NoteHarmonies.find(solo, true, List.of()), found.stretches()));

    assertThat(undefined(heard))
        .isEqualTo(
            StatisticKeys.soloLevel().stream()
                .limit(StatisticKeys.soloLevel().indexOf("value_share_whole"))
                .filter(key -> !key.startsWith("approach_"))
                .toList());
  }

  @Test
  void freeMetreLacksBarsAndBeatsOnly() {
    Solo solo =
        atTempo(
            SoloText.solo(
                Metre.FREE,
                4,
                "0:C4:1 1:D4:1/2 3/2:E4:1/2 2:F4:3/2 4:G4:1 5:A4:1 8:C5:1 9:B4:1 10:G4:1",
                "0:Dm7 4:G7"));

    assertThat(undefined(Heard.inC(solo, 6)))
        .containsExactly(
            "chord_arrival_chord_tone_share",
            "chord_tone_share_beat_one",
            "chord_tone_share_other_beats",
            "chord_tone_share_off_beat",
            "guide_tone_resolution_share",
            "enclosed_on_beat_share",
            "notes_per_bar",
            "notes_per_beat",
            "off_beat_share",
            "anticipation_share",
            "syncopation_per_bar",
            "beat_distance",
            "phrase_length_bars",
            "phrase_length_beats",
            "phrase_onset_span_bars",
            "phrase_starts_on_beat",
            "phrase_ends_on_beat",
            "phrase_starts_with_pickup",
            "phrase_starts_beat_1",
            "phrase_starts_beat_2",
            "phrase_starts_beat_3",
            "phrase_starts_beat_4",
            "phrase_ends_beat_1",
            "phrase_ends_beat_2",
            "phrase_ends_beat_3",
            "phrase_ends_beat_4",
            "silence_after_beats",
            "phrases_under_half_bar",
            "phrases_one_bar",
            "phrases_two_bars",
            "phrases_three_bars",
            "phrases_four_bars",
            "phrases_longer",
            "phrase_length_variety",
            "longest_run_bars",
            "phrases_per_8_bars",
            "unbroken_time_share",
            "scrap_time_share",
            "longest_stretch_bars",
            "short_stretch_share");
  }

  @Test
  void oddMetreHasEveryStatistic() {
    Solo odd =
        Heard.inBars(
            WorkedSoloTest.SOLO.solo(),
            Metre.of(5, 4),
            Metre.of(7, 8),
            Metre.of(5, 8),
            Metre.of(7, 8),
            Metre.of(4, 4));

    assertThat(undefined(Heard.inC(odd, 5, 10))).isEmpty();
  }

  @Test
  void sharesStayBetweenZeroAndOneAndMixesSumToOne() {
    for (long seed = 0; seed < 60; seed++) {
      SoloAnalysis heard = random(seed);
      List<StatisticValue> values = SoloStatistics.of(heard);

      for (StatisticValue value : values) {
        if (value.value() != null) {
          assertThat(value.value()).as("%s, seed %s", value.key(), seed).isFinite();
          if (value.key().endsWith("_share") || value.key().startsWith("phrase_ends_")) {
            assertThat(value.value()).as("%s, seed %s", value.key(), seed).isBetween(0.0, 1.0);
          }
        }
      }
      assertSumIsOne(values, "value_share_", seed);
      assertSumIsOne(values, "time_share_", seed);
      assertSumIsOne(values, "approach_", seed);
      assertSumIsOne(values, "contour_", seed);
    }
  }

  private static void assertSumIsOne(List<StatisticValue> values, String prefix, long seed) {
    List<Double> parts =
        values.stream()
            .filter(value -> value.key().startsWith(prefix) && value.value() != null)
            .map(StatisticValue::value)
            .toList();
    if (!parts.isEmpty()) {
      assertThat(parts.stream().mapToDouble(Double::doubleValue).sum())
          .as("%s, seed %s", prefix, seed)
          .isCloseTo(1, within(1e-9));
    }
  }

  @Test
  void soloOfOnePhraseHasTheValuesOfThatPhrase() {
    for (long seed = 0; seed < 30; seed++) {
      SoloAnalysis found = random(seed);
      SoloAnalysis whole = Heard.inC(found.solo());
      List<StatisticValue> ofPhrase = PhraseStatistics.of(whole, whole.phrases().get(0));
      List<StatisticValue> ofSolo = SoloStatistics.of(whole);

      for (StatisticValue value : ofPhrase) {
        if (StatisticKeys.soloLevel().contains(value.key())) {
          assertThat(value).as("seed %s", seed).isEqualTo(Heard.find(ofSolo, value.key()));
        }
      }
    }
  }

  @Test
  void phraseHasEveryKeyOfItsLevelInOrder() {
    SoloAnalysis heard = random(7);

    heard
        .phrases()
        .forEach(
            phrase ->
                assertThat(PhraseStatistics.of(heard, phrase))
                    .extracting(StatisticValue::key)
                    .isEqualTo(StatisticKeys.phraseLevel()));
  }

  @Test
  void phrasesOfASoloHaveTheSameValuesAlone() {
    for (long seed = 0; seed < 30; seed++) {
      SoloAnalysis heard = random(seed);

      assertThat(SoloStatistics.withPhrases(heard).phrases())
          .as("seed %s", seed)
          .isEqualTo(
              heard.phrases().stream().map(phrase -> PhraseStatistics.of(heard, phrase)).toList());
    }
  }

  @Test
  void moveByAnOctaveChangesNothing() {
    for (long seed = 0; seed < 30; seed++) {
      SoloAnalysis heard = random(seed);
      Solo higher = SoloText.solo(Metre.of(4, 4), 16, text(seed, 1), CHORDS);

      assertThat(SoloStatistics.of(Heard.inC(higher, starts(heard))))
          .as("seed %s", seed)
          .isEqualTo(SoloStatistics.of(Heard.inC(heard.solo(), starts(heard))));
    }
  }

  private static final String CHORDS = "0:Dm7 4:G7 8:Cmaj7 16:Am7 20:D7 24:NC 32:Fm6 40:C";

  private static Integer[] starts(SoloAnalysis heard) {
    return heard.phrases().stream()
        .skip(1)
        .map(phrase -> phrase.firstNote())
        .toArray(Integer[]::new);
  }

  private static SoloAnalysis random(long seed) {
    Solo solo = SoloText.solo(Metre.of(4, 4), 16, text(seed, 0), CHORDS);
    Random random = new Random(seed);
    List<Integer> starts = new ArrayList<>();
    for (int i = 1; i < solo.notes().size(); i++) {
      if (random.nextInt(6) == 0) {
        starts.add(i);
      }
    }
    return Heard.inC(solo, starts.toArray(Integer[]::new));
  }

  private static String text(long seed, int octaves) {
    String[] names = {"C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"};
    String[] lengths = {"1/2", "1/2", "1/2", "1/3", "1/4", "1", "3/2", "2", "5/2", "1/5", "3/8"};
    Random random = new Random(seed);
    StringBuilder text = new StringBuilder();
    Fraction at = Fraction.of(random.nextInt(8), 2);
    int notes = 1 + random.nextInt(60);
    for (int i = 0; i < notes && at.isBefore(Fraction.of(60)); i++) {
      Fraction length = Fraction.parse(lengths[random.nextInt(lengths.length)]);
      text.append(at)
          .append(':')
          .append(names[random.nextInt(names.length)])
          .append(4 + random.nextInt(2) + octaves)
          .append(':')
          .append(length)
          .append(' ');
      at = at.plus(length);
      if (random.nextInt(4) == 0) {
        at = at.plus(Fraction.of(random.nextInt(6), 4));
      }
    }
    return text.toString();
  }
}
