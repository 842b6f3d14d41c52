package phrasecensus.comparison;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.function.IntFunction;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import phrasecensus.music.norm.NormValue;
import phrasecensus.tables.Grouping;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableRow;

/** Rows of norms, contrasts, departures and trends from values written down here. */
class ComparisonRowsTest {
  private static final ReferenceGroup WHOLE =
      new ReferenceGroup("all", "all", ReferenceGroup.Reason.NO_GROUPS);
  private static final StatisticDefinition LENGTH =
      StatisticsCatalogue.builtIn().named("phrase_length_bars").orElseThrow();

  private static CorpusGroup group(
      String value, int solos, IntFunction<String> player, IntFunction<Double> number) {
    return new CorpusGroup(
        "style",
        value,
        IntStream.range(0, solos)
            .mapToObj(
                i ->
                    new CorpusSolo(
                        String.format("corpus/%s-%03d", value, i),
                        new NormValue(player.apply(i), number.apply(i)),
                        List.of(value),
                        new CorpusSolo.Basis(20, 20, 120 + i, Double.NaN, Double.NaN)))
            .toList());
  }

  private static CorpusGroup group(
      String value, int solos, int players, IntToDoubleFunction number) {
    return group(value, solos, i -> value + " player " + i % players, number::applyAsDouble);
  }

  private static List<TableRow> contrasts(List<CorpusGroup> groups) {
    List<CorpusSolo> all = groups.stream().flatMap(group -> group.solos().stream()).toList();
    return ContrastRows.of(
        LENGTH, groups, new ComparisonModels(LENGTH.key(), all, List.of("style")));
  }

  private static Student solo(String date, int phrases, Double value) {
    return new Student(
        "Ada Reed",
        Student.SOLO,
        "student/ada/" + date,
        date == null ? null : LocalDate.parse(date),
        phrases,
        150.0,
        Map.of(),
        Set.of(),
        0,
        value == null ? Map.of() : Map.of(LENGTH.key(), value),
        Map.of(LENGTH.key(), phrases));
  }

  /** Of thirty phrases, but of so many things that the statistic counts. */
  private static Student counting(int things, double value) {
    Student solo = solo("2026-03-01", 30, value);
    return new Student(
        solo.student(),
        solo.scope(),
        solo.soloId(),
        solo.date(),
        solo.phrases(),
        solo.tempo(),
        solo.groups(),
        solo.twins(),
        solo.sameFiles(),
        solo.values(),
        Map.of(LENGTH.key(), things));
  }

  private static TableRow departure(CorpusGroup group, Student solo) {
    return judged(
        DepartureRows.of(
            new StatisticValues(LENGTH, List.of(), group.solos(), Map.of()),
            new ComparisonModels(LENGTH.key(), group.solos(), List.of("style")),
            group,
            solo,
            List.of(solo),
            WHOLE));
  }

  private static TableRow judged(DepartureRows.Draft draft) {
    return DepartureVerdicts.of(List.of(draft)).get(0);
  }

  @Test
  void aShareOfTwoChordChangesIsTooLittleHoweverManyPhrasesThereAre() {
    TableRow row = departure(group("a", 12, 4, i -> 1 + i), counting(2, 40));

    assertThat(row.text("verdict")).isEqualTo("too-little");
    assertThat(row.isMissing("interval_low")).isTrue();
    assertThat(row.isMissing("p_value")).isTrue();
  }

  @Test
  void reliabilityIsThatOfTheThingsCountedIfTheyAreFewerThanPhrases() {
    TableRow row = departure(group("a", 12, 4, i -> 1 + i), counting(5, 40));

    assertThat(row.integer("phrases")).isEqualTo(5);
    assertThat(row.text("reliability_source")).isEqualTo("shipped");
    assertThat(row.number("reliability"))
        .isCloseTo(5 / (5 + row.number("phrases_for_half")), within(1e-12));
  }

  /** Twelve solos of values 1 to 12, and under another rule a quarter more, but for the last. */
  @Test
  void aRuleThatLengthensAlmostEveryPhraseMovesTheNormByAsMuch() {
    List<CorpusSolo> study = group("a", 12, 3, i -> 1 + i).solos();
    List<CorpusSolo> other = group("a", 12, 3, i -> i == 11 ? 12 : 1.25 + i).solos();

    List<TableRow> rows =
        SensitivityRows.of(
            new StatisticValues(
                LENGTH, List.of("style"), study, Map.of(), Map.of("silence", other)),
            "breath");

    assertThat(rows)
        .extracting(row -> row.text("group_by") + " " + row.text("rule"))
        .containsExactly("all silence", "style silence", "all breath", "style breath");
    TableRow silence = rows.get(0);
    assertThat(silence.flag("rule_of_study")).isFalse();
    assertThat(silence.integer("n")).isEqualTo(12);
    assertThat(silence.number("p50")).isEqualTo(6.75);
    assertThat(silence.number("median_shift")).isEqualTo(.25);
    // quartiles of 1..12 by type 8: positions 12/4 + 1/3 + 1/4 * 1/3 and 12 * 3/4 + 1/3 + 1/4
    double spread = (9 + 1.0 / 3 + 1.0 / 4 - 3 - 1.0 / 3 - 1.0 / 12) / 1.349;
    assertThat(silence.number("median_shift_spreads")).isCloseTo(.25 / spread, within(1e-3));
    assertThat(silence.number("typical_change")).isEqualTo(.25);
    assertThat(silence.integer("solos_changed")).isEqualTo(11);
    assertThat(rows.get(2).flag("rule_of_study")).isTrue();
    assertThat(rows.get(2).number("median_shift")).isZero();
    assertThat(rows.get(2).integer("solos_changed")).isZero();
  }

  @Test
  void aShiftInSpreadsNeedsEnoughSolosForQuartilesAndAShiftEnoughForAMedian() {
    for (int solos : new int[] {3, 8}) {
      List<CorpusSolo> study = group("a", solos, 3, i -> 1 + i).solos();

      TableRow row =
          SensitivityRows.of(
                  new StatisticValues(LENGTH, List.of(), study, Map.of(), Map.of("silence", study)),
                  "breath")
              .get(0);

      assertThat(row.isMissing("median_shift")).isEqualTo(solos < 6);
      assertThat(row.isMissing("median_shift_spreads")).isTrue();
      assertThat(row.number("typical_change")).isZero();
    }
  }

  @Test
  void aValueThatAnotherRuleMakesUndefinedIsCountedApart() {
    List<CorpusSolo> study = group("a", 6, 3, i -> 1 + i).solos();
    List<CorpusSolo> other = group("a", 6, i -> "p" + i, i -> i == 0 ? null : 1.0 + i).solos();

    TableRow row =
        SensitivityRows.of(
                new StatisticValues(LENGTH, List.of(), study, Map.of(), Map.of("silence", other)),
                "breath")
            .get(0);

    assertThat(row.integer("n")).isEqualTo(5);
    assertThat(row.integer("solos_changed")).isZero();
    assertThat(row.integer("solos_defined_once")).isEqualTo(1);
    assertThat(row.isMissing("median_shift")).isTrue();
  }

  @Test
  void aStudyThatAsksForNoOtherRuleHasNoSensitivity() {
    assertThat(
            SensitivityRows.of(
                new StatisticValues(LENGTH, List.of(), group("a", 12, 3, i -> i).solos(), Map.of()),
                "breath"))
        .isEmpty();
  }

  @Test
  void oneSoloMakesANormOfOneValueWithoutIntervals() {
    TableRow row = NormRows.of(LENGTH.key(), group("a", 1, 1, i -> 2.5), null);

    assertThat(row.integer("n")).isEqualTo(1);
    assertThat(row.text("shown")).isEqualTo("list");
    assertThat(row.number("mean")).isEqualTo(2.5);
    assertThat(row.isMissing("mean_low")).isTrue();
    assertThat(row.number("design_effect")).isEqualTo(1);
  }

  @Test
  void aStatisticThatIsUndefinedEverywhereHasNoMeanAndNoDesignEffect() {
    TableRow row = NormRows.of(LENGTH.key(), group("a", 12, i -> "p" + i, i -> null), null);

    assertThat(row.integer("n")).isZero();
    assertThat(row.integer("undefined")).isEqualTo(12);
    assertThat(row.isMissing("mean")).isTrue();
    assertThat(row.isMissing("mean_low")).isTrue();
    assertThat(row.isMissing("design_effect")).isTrue();
  }

  @Test
  void theIntervalOfAMeanIsWiderWhereSolosOfAPlayerAreAlike() {
    TableRow alike = NormRows.of(LENGTH.key(), group("a", 48, 8, i -> i % 8), null);
    TableRow mixed = NormRows.of(LENGTH.key(), group("b", 48, 8, i -> Math.floorDiv(i, 6)), null);

    assertThat(alike.number("mean")).isEqualTo(mixed.number("mean"));
    assertThat(alike.number("design_effect")).isCloseTo(6, within(1e-9));
    assertThat(width(alike)).isGreaterThan(2 * width(mixed));
  }

  private static double width(TableRow row) {
    return row.number("mean_high") - row.number("mean_low");
  }

  @Test
  void theOrderInWhichSolosComeChangesNothing() {
    List<CorpusSolo> solos = new ArrayList<>(group("a", 40, 7, i -> Math.sin(i) / 3).solos());
    CorpusGroup sorted = new StatisticValues(LENGTH, List.of(), solos, Map.of()).whole();
    Collections.shuffle(solos, new Random(4));
    CorpusGroup shuffled = new StatisticValues(LENGTH, List.of(), solos, Map.of()).whole();

    assertThat(NormRows.of("x", shuffled, null)).isEqualTo(NormRows.of("x", sorted, null));
  }

  @Test
  void aSoloOfTwoPhrasesIsNotTested() {
    TableRow row = departure(group("a", 30, 6, i -> i), solo("2026-01-01", 2, 99.0));

    assertThat(row.text("verdict")).isEqualTo("too-little");
    assertThat(row.isMissing("p_value")).isTrue();
  }

  @Test
  void whereNothingVariesThereIsNoTestAndItIsSaid() {
    CorpusGroup group =
        new CorpusGroup(
            "style",
            "a",
            group("a", 30, 6, i -> 2).solos().stream()
                .map(
                    solo ->
                        new CorpusSolo(
                            solo.soloId(),
                            solo.normValue(),
                            solo.groupValues(),
                            new CorpusSolo.Basis(20, 20, Double.NaN, 2, 2)))
                .toList());
    TableRow row = departure(group, solo("2026-01-01", 8, 9.0));

    assertThat(row.text("verdict")).isEqualTo("constant");
    assertThat(row.flag("tempo_taken_out")).isFalse();
    assertThat(row.isMissing("p_value")).isTrue();
  }

  @Test
  void aValueFarBeyondTheGroupIsUnlikelyToBeOneMorePlayer() {
    CorpusGroup group = group("a", 40, 10, i -> 1 + i % 10 + i / 40.0);
    TableRow far = departure(group, solo("2026-01-01", 40, 90.0));
    TableRow near = departure(group, solo("2026-01-01", 40, 5.0));

    assertThat(far.number("p_value")).isLessThan(0.01);
    assertThat(far.text("verdict")).isEqualTo("above");
    assertThat(far.number("value")).isGreaterThan(far.number("interval_high"));
    assertThat(near.number("p_value")).isGreaterThan(0.5);
    assertThat(near.text("verdict")).isEqualTo("inside");
    assertThat(near.number("value"))
        .isBetween(near.number("interval_low"), near.number("interval_high"));
  }

  @Test
  void nineSolosOfOnePlayerAreHeldAgainstFurtherOnesOfTheSamePlayer() {
    TableRow row =
        departure(group("a", 9, i -> "Ada", i -> 2 + i / 4.0), solo("2026-01-01", 40, 2.5));

    assertThat(row.flag("one_player")).isTrue();
    assertThat(row.text("verdict")).isEqualTo("inside");
    assertThat(row.isMissing("band_low")).isTrue();
    assertThat(row.isMissing("band_median")).isFalse();
  }

  @Test
  void fewSolosOfSeveralPlayersAreDescribed() {
    CorpusGroup group = group("a", 9, 3, i -> 2 + i / 4.0);
    Map<String, double[]> phrases = new HashMap<>();
    group.solos().forEach(solo -> phrases.put(solo.soloId(), new double[] {1, 2, 3}));
    Student own = solo("2026-01-01", 40, 8.0);
    phrases.put(own.soloId(), new double[] {4, 5});

    TableRow row =
        judged(
            DepartureRows.of(
                new StatisticValues(LENGTH, List.of(), group.solos(), phrases),
                new ComparisonModels(LENGTH.key(), group.solos(), List.of("style")),
                group,
                own,
                List.of(own),
                WHOLE));

    assertThat(row.text("verdict")).isEqualTo("described");
    assertThat(row.number("cliffs_delta")).isEqualTo(1);
    assertThat(row.isMissing("delta_low")).isTrue();
    assertThat(row.isMissing("p_value")).isTrue();
    assertThat(row.integer("place")).isEqualTo(1);
  }

  @Test
  void pooledPhrasesAreDescribedBesideAVerdictWithoutASecondInterval() {
    CorpusGroup group = group("a", 12, 4, i -> 2 + i % 3);
    Map<String, double[]> phrases = new HashMap<>();
    group.solos().forEach(solo -> phrases.put(solo.soloId(), new double[] {1, 2, 3}));
    List<Student> solos =
        List.of(solo("2026-01-01", 4, 5.0), solo("2026-02-01", 4, 6.0), solo("2026-03-01", 4, 7.0));
    solos.forEach(solo -> phrases.put(solo.soloId(), new double[] {3, 5, 5, 9}));
    Student pooled =
        new Student(
            "Ada Reed",
            Student.POOLED,
            "",
            null,
            12,
            null,
            Map.of(),
            Set.of(),
            0,
            Map.of(LENGTH.key(), 6.0),
            Map.of(LENGTH.key(), 12));

    TableRow row =
        judged(
            DepartureRows.of(
                new StatisticValues(LENGTH, List.of(), group.solos(), phrases),
                new ComparisonModels(LENGTH.key(), group.solos(), List.of("style")),
                group,
                pooled,
                solos,
                WHOLE));

    // Of each 3 x 4 pairs the student's is the greater in 11, equal in 1 (3 and 3).
    assertThat(row.number("cliffs_delta")).isCloseTo(11 / 12.0, within(1e-12));
    // Differences 0 1 2 2 2 3 3 4 4 6 7 8, each as often.
    assertThat(row.number("shift")).isEqualTo(3);
    // Means 5.5 and 2, and the student's quantiles are nowhere below.
    assertThat(row.number("wasserstein")).isCloseTo(3.5, within(1e-12));
    assertThat(row.isMissing("interval_low")).isFalse();
    for (String second : List.of("delta_low", "delta_high", "shift_low", "shift_high")) {
      assertThat(row.isMissing(second)).as(second).isTrue();
    }
  }

  @Test
  void playersAreDealtWhenNobodyPlaysInBothGroups() {
    TableRow row =
        contrasts(List.of(group("a", 12, 4, i -> 1 + i), group("b", 12, 4, i -> 101 + i))).get(0);

    assertThat(row.text("dealt")).isEqualTo("players");
    assertThat(row.number("cliffs_delta")).isEqualTo(-1);
    assertThat(row.number("shift")).isEqualTo(-100);
    assertThat(row.number("wasserstein")).isCloseTo(100, within(1e-12));
    // Of the 70 ways to deal eight players, two are as far apart as this.
    assertThat(row.number("p_value")).isCloseTo(2 / 70.0, within(1e-12));
  }

  @Test
  void solosAreDealtWithinPlayersOfBothGroupsAndOthersWhole() {
    CorpusGroup first = group("a", 12, i -> "p" + i % 4, i -> (double) i);
    CorpusGroup both = group("b", 12, i -> "p" + i % 5, i -> 5.0 + i);
    CorpusGroup two = group("c", 12, i -> "q" + i % 2, i -> 5.0 + i);

    assertThat(contrasts(List.of(first, both, two)))
        .extracting(row -> row.text("dealt"))
        .containsExactly("both", "players", "players");
  }

  /** Two named players and two solos without a name on either side: eight units. */
  @Test
  void solosWithoutAPlayersNameAreDealtOneByOne() {
    IntFunction<String> fourNamed = i -> i < 4 ? "p" + i % 2 : null;
    TableRow row =
        contrasts(
                List.of(
                    group("a", 6, fourNamed, i -> 1.0 + i),
                    group("b", 6, i -> i < 4 ? "q" + i % 2 : "", i -> 20.0 + i)))
            .get(0);

    assertThat(row.integer("unnamed_solos")).isEqualTo(4);
    assertThat(row.integer("first_players")).isEqualTo(4);
    assertThat(row.integer("second_players")).isEqualTo(4);
    assertThat(row.text("dealt")).isEqualTo("players");
    // Two each of one and of two solos on either side: 8! / 2!^4 = 2,520 ways, of which 2,000.
    assertThat(row.integer("deals")).isEqualTo(2001);
  }

  @Test
  void aStudentIsHeldAgainstSolosWithoutAPlayersNameOneByOne() {
    TableRow row =
        departure(
            group("a", 12, i -> i < 4 ? "p" + i % 2 : null, i -> 1 + i % 5 / 4.0),
            solo("2026-01-01", 40, 2.0));

    assertThat(row.integer("norm_players")).isEqualTo(10);
    assertThat(row.integer("norm_unnamed")).isEqualTo(8);
    assertThat(row.flag("one_player")).isFalse();
  }

  @Test
  void groupsWithTheSameSolosDoNotDiffer() {
    TableRow row =
        contrasts(List.of(group("a", 8, 4, i -> 1 + i % 3), group("b", 8, 4, i -> 1 + i % 3)))
            .get(0);

    assertThat(row.number("cliffs_delta")).isZero();
    assertThat(row.number("shift")).isZero();
    assertThat(row.number("difference")).isCloseTo(0, within(1e-9));
    assertThat(row.number("p_value")).isCloseTo(1, within(1e-9));
  }

  @Test
  void aStatisticThatIsTheSameInEverySoloOfBothGroupsIsNotTested() {
    TableRow row = contrasts(List.of(group("a", 8, 4, i -> 2), group("b", 8, 4, i -> 2))).get(0);

    assertThat(row.number("cliffs_delta")).isZero();
    assertThat(row.number("shift")).isZero();
    assertThat(row.number("difference")).isNull();
    assertThat(row.number("p_value")).isNull();
  }

  @Test
  void aStatisticWithFewValuesIsListedWithoutNumbers() {
    TableRow row =
        contrasts(
                List.of(
                    group("a", 12, i -> "p" + i, i -> i < 5 ? (Double) 1.0 : null),
                    group("b", 12, 4, i -> i)))
            .get(0);

    assertThat(row.integer("first_n")).isEqualTo(5);
    assertThat(row.isMissing("cliffs_delta")).isTrue();
    assertThat(row.isMissing("dealt")).isTrue();
    assertThat(row.isMissing("p_value")).isTrue();
  }

  @Test
  void theSixGroupsOfMostSolosAreContrasted() {
    List<CorpusGroup> groups = new ArrayList<>();
    for (int i = 0; i < 9; i++) {
      groups.add(group("group " + i, 5 + i, 3, k -> k));
    }
    groups.add(group(Grouping.NO_VALUE, 50, 3, k -> k));
    groups.add(group("", 50, 3, k -> k));

    List<TableRow> rows = contrasts(groups);

    assertThat(rows).hasSize(15);
    assertThat(rows)
        .extracting(row -> row.text("first_group"))
        .containsOnly("group 3", "group 4", "group 5", "group 6", "group 7");
  }

  @Test
  void twoDatesAreTooFewAndSaySo() {
    TableRow row =
        TrendRows.of(
            LENGTH,
            group("a", 30, 6, i -> i),
            List.of(
                solo("2026-01-01", 8, 50.0),
                solo("2026-02-01", 8, 40.0),
                solo("2026-03-01", 2, 30.0),
                solo(null, 8, 10.0)));

    assertThat(row.text("movement")).isEqualTo("too-few-dates");
    assertThat(row.integer("dates")).isEqualTo(2);
    assertThat(row.isMissing("slope")).isTrue();
  }

  @Test
  void aStudentWithoutDatesHasARowAllTheSame() {
    TableRow row = TrendRows.of(LENGTH, group("a", 30, 6, i -> i), List.of(solo(null, 8, 1.0)));

    assertThat(row.text("movement")).isEqualTo("too-few-dates");
    assertThat(row.integer("solos")).isZero();
    assertThat(row.isMissing("first_date")).isTrue();
  }

  @Test
  void fiveSolosThatComeNearerMoveTowardTheBand() {
    List<Student> solos = new ArrayList<>();
    for (int i = 0; i < 5; i++) {
      solos.add(solo("2026-01-" + (11 + 3 * i), 8, 60.0 - 6 * i));
    }

    TableRow row = TrendRows.of(LENGTH, group("a", 30, 6, i -> i), solos);

    assertThat(row.text("movement")).isEqualTo("toward-band");
    assertThat(row.number("slope")).isCloseTo(-60, within(1e-9));
    assertThat(row.number("change")).isCloseTo(-24, within(1e-9));
    assertThat(row.number("slope_high")).isNegative();
  }

  /** Benjamini and Hochberg 1995, the first five of their fifteen with the adjusted values of R. */
  @Test
  void pValuesAreAdjustedWithinTheirFamilyOnly() {
    double[] published = {
      .0001, .0004, .0019, .0095, .0201, .0278, .0298, .0344, .0459, .3240, .4262, .5719, .6528,
      .7590, 1
    };
    List<TableRow> rows = new ArrayList<>();
    for (String style : List.of("a", "b")) {
      TableRow row =
          contrasts(List.of(group(style, 8, 4, i -> i), group("z", 8, 4, i -> i))).get(0);
      for (double p : published) {
        rows.add(TableRow.copyOf(row).set("p_value", p).build());
      }
      rows.add(TableRow.copyOf(row).set("p_value", null).build());
    }

    List<TableRow> adjusted = AdjustedPValues.of(rows, List.of("group_by", "first_group"));

    assertThat(adjusted).hasSize(32);
    for (String style : List.of("a", "b")) {
      List<TableRow> family =
          adjusted.stream().filter(row -> row.text("first_group").equals(style)).toList();
      assertThat(family).filteredOn(row -> row.isMissing("p_value")).hasSize(1);
      List<TableRow> tested = family.stream().filter(row -> !row.isMissing("p_value")).toList();
      assertThat(tested).allMatch(row -> row.integer("tests") == 15);
      double[] expected = {.0015, .003, .0095, .035625, .0603};
      for (int i = 0; i < expected.length; i++) {
        assertThat(tested.get(i).number("p_adjusted")).isCloseTo(expected[i], within(1e-12));
      }
    }
  }
}
