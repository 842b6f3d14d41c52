package phrasecensus.report.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import phrasecensus.report.rows.Comparison;
import phrasecensus.report.rows.CorpusNorm;
import phrasecensus.report.rows.Group;
import phrasecensus.report.rows.Interval;
import phrasecensus.report.rows.Trend;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.row.DepartureVerdict;
import phrasecensus.tables.row.NormShown;
import phrasecensus.tables.row.TrendMovement;

class WordingTest {
  private static final StatisticDefinition LENGTH =
      StatisticsCatalogue.builtIn().named("phrase_length_bars").orElseThrow();
  private static final StatisticDefinition SOUND =
      StatisticsCatalogue.builtIn().named("sounding_share").orElseThrow();

  private final Wording wording = new Wording(new Numbers(Locale.ENGLISH));

  private static CorpusNorm norm(NormShown shown, int n, int players, String dominant) {
    return norm(shown, n, players, dominant, 1.0, 4.0);
  }

  private static CorpusNorm norm(
      NormShown shown, int n, int players, String dominant, double minimum, double maximum) {
    boolean band = shown.compareTo(NormShown.QUARTILES) >= 0;
    boolean median = shown != NormShown.LIST;
    return new CorpusNorm(
        Group.ALL,
        "phrase_length_bars",
        n,
        0,
        players,
        shown,
        dominant,
        minimum,
        null,
        null,
        band ? 2.0 : null,
        median ? 2.5 : null,
        band ? 3.0 : null,
        null,
        null,
        maximum,
        2.5,
        new Interval(median ? 2.5 : null, median ? 2.25 : null, median ? 2.75 : null));
  }

  private static Comparison comparison(DepartureVerdict verdict, Double value, int below) {
    return comparison(LENGTH, verdict, value, below, null, Interval.NONE, Interval.NONE, false);
  }

  /** Beside 48 solos of the corpus, of which none is equal. */
  private static Comparison comparison(
      StatisticDefinition definition,
      DepartureVerdict verdict,
      Double value,
      int below,
      Double pAdjusted,
      Interval delta,
      Interval shift,
      boolean questionDiffers) {
    return new Comparison(
        "A",
        false,
        "",
        Group.ALL,
        true,
        null,
        0,
        0,
        definition.key(),
        value,
        15,
        1,
        null,
        48,
        0,
        false,
        new Interval(2.5, 2.0, 3.0),
        true,
        below < 0 ? null : (Integer) below,
        below < 0 ? null : (Integer) 0,
        verdict,
        null,
        pAdjusted,
        pAdjusted,
        pAdjusted == null ? null : (Integer) 44,
        pAdjusted == null ? Interval.NONE : new Interval(null, 1.5, 4.0),
        questionDiffers,
        false,
        delta,
        shift);
  }

  private String sureness(Double pAdjusted, Interval delta, Interval shift) {
    return sureness(
        pAdjusted != null && pAdjusted <= 0.05 ? DepartureVerdict.ABOVE : DepartureVerdict.INSIDE,
        pAdjusted,
        delta,
        shift);
  }

  private String described(Interval delta, Interval shift) {
    return sureness(DepartureVerdict.DESCRIBED, null, delta, shift);
  }

  private String sureness(
      DepartureVerdict verdict, Double pAdjusted, Interval delta, Interval shift) {
    return wording.sureness(
        new Wording.Standing(
            LENGTH, comparison(LENGTH, verdict, 5.1, 47, pAdjusted, delta, shift, false), null));
  }

  private static Trend trend(TrendMovement movement, int dates, boolean directionOnly) {
    return new Trend(
        "A", Group.ALL, "phrase_length_bars", dates, dates, -1.0, movement, directionOnly);
  }

  private String progress(Trend trend) {
    return wording.progress(LENGTH, trend, 5, 4, 4);
  }

  private static Wording.Standing standing(StatisticDefinition definition, Comparison comparison) {
    return new Wording.Standing(definition, comparison, null);
  }

  @Test
  void aStandingTellsValueNAndPlace() {
    assertThat(wording.standing(standing(LENGTH, comparison(DepartureVerdict.ABOVE, 5.1, 47))))
        .isEqualTo(
            "5.10\u00a0bars, from 15\u00a0phrases: longer phrases than 47 of 48 solos in this"
                + " corpus at this tempo.");
  }

  @Test
  void whereLessIsToldAsMoreOfSomethingElseTheFigureIsTurnedToo() {
    assertThat(
            wording.standing(
                standing(
                    SOUND,
                    comparison(
                        SOUND,
                        DepartureVerdict.BELOW,
                        0.4,
                        1,
                        0.01,
                        Interval.NONE,
                        Interval.NONE,
                        true))))
        .startsWith("60\u00a0%, from 15")
        .contains("more space and less sound than 47 of 48 solos");
  }

  @Test
  void aValueOutsideTheMiddleHalfIsNeverPrintedAsInside() {
    Wording.Standing near = standing(LENGTH, comparison(DepartureVerdict.INSIDE, 3.002, 30));

    assertThat(wording.standing(near)).startsWith("3.002\u00a0bars");
    assertThat(wording.norm(near)).contains("from 2.000\u00a0to\u00a03.000\u00a0bars");
  }

  @Test
  void theMiddleIsCalledThat() {
    assertThat(wording.standing(standing(LENGTH, comparison(DepartureVerdict.INSIDE, 2.5, 24))))
        .endsWith("about in the middle of 48 solos in this corpus at this tempo.");
  }

  @Test
  void aValueThatRestsOnTooLittleIsNotPlaced() {
    Wording.Standing little = standing(LENGTH, comparison(DepartureVerdict.TOO_LITTLE, 1.0, -1));

    assertThat(wording.standing(little))
        .isEqualTo(
            "1.00\u00a0bars, from 15\u00a0phrases: too little music here to say where it"
                + " stands.");
    assertThat(wording.answer(List.of(little)))
        .isEqualTo("There is too little music here to say more.");
  }

  @Test
  void anUndefinedValueSaysWhy() {
    assertThat(
            wording.standing(standing(LENGTH, comparison(DepartureVerdict.TOO_LITTLE, null, -1))))
        .isEqualTo("No value here: no metre (n\u00a015).");
  }

  @Test
  void anAnswerNamesWhatIsClearFirst() {
    assertThat(
            wording.answer(
                List.of(
                    standing(LENGTH, comparison(DepartureVerdict.ABOVE, 5.1, 47)),
                    standing(SOUND, comparison(DepartureVerdict.INSIDE, 0.8, 20)))))
        .isEqualTo(
            "Longer phrases than is usual in this corpus. Not clearly apart: share of time that"
                + " sounds.");
  }

  @Test
  void anAnswerWhoseFiguresDifferOnlyTogetherSaysThat() {
    Comparison one =
        comparison(
            LENGTH, DepartureVerdict.INSIDE, 2.9, 40, 0.06, Interval.NONE, Interval.NONE, true);

    assertThat(wording.answer(List.of(standing(LENGTH, one))))
        .isEqualTo("Taken together different from this corpus; no one number is.");
  }

  @Test
  void anAnswerWithoutANormSaysSo() {
    assertThat(
            wording.answer(List.of(standing(LENGTH, comparison(DepartureVerdict.NO_NORM, 5.1, 3)))))
        .isEqualTo("The corpus has too few solos for a norm, so only the values are shown.");
  }

  @Test
  void anAnswerFromNothingSaysSo() {
    assertThat(wording.answer(List.of())).isEqualTo("This study has no value to answer it with.");
  }

  @Test
  void fewSolosAreListed() {
    assertThat(wording.norm(LENGTH, norm(NormShown.LIST, 3, 3, null), List.of(1.0, 2.25, 4.0)))
        .isEqualTo(
            "3\u00a0solos by 3\u00a0players: too few solos for a norm. The values are"
                + " 1.00\u00a0bars, 2.25\u00a0bars and 4.00\u00a0bars.");
  }

  @Test
  void oneSoloWithoutAListHasOneValueAndNoRange() {
    assertThat(wording.norm(LENGTH, norm(NormShown.LIST, 1, 1, null, 2.5, 2.5), List.of()))
        .isEqualTo(
            "1 solo, players not named: too few solos for a norm. The value is 2.50 bars."
                + " Its players are not named: it may be one player's.");
  }

  @Test
  void solosThatAreAllAlikeAreSaidToBe() {
    assertThat(Wording.caution(norm(NormShown.QUARTILES, 12, 4, null, 2.5, 2.5)))
        .isEqualTo(
            "All these solos have the same value: how far another lies from it cannot be told.");
    assertThat(Wording.caution(norm(NormShown.QUARTILES, 12, 4, null))).isEmpty();
  }

  @Test
  void aGroupOfOnePlayerIsNamedAfterThePlayer() {
    assertThat(wording.norm(LENGTH, norm(NormShown.QUARTILES, 20, 4, "B. Player"), List.of()))
        .isEqualTo(
            "The middle half of 20\u00a0solos by 4\u00a0players lies from"
                + " 2.00\u00a0to\u00a03.00\u00a0bars; the median is 2.50\u00a0bars. More than half"
                + " of these solos are by B. Player: read it as that player's.");
  }

  @Test
  void progressSaysWhichWayTheTableTells() {
    assertThat(progress(trend(TrendMovement.TOWARD_BAND, 4, false)))
        .isEqualTo(
            "Moved toward the middle half of the corpus: from 5.00 to 4.00\u00a0bars over"
                + " 4\u00a0dated solos.");
    assertThat(progress(trend(TrendMovement.AWAY_FROM_BAND, 4, true)))
        .startsWith(
            "Moved away from the middle half of the corpus (the direction is clear, its size is"
                + " not):");
    assertThat(progress(trend(TrendMovement.STAYED_INSIDE, 4, false)))
        .startsWith("Stayed inside the middle half of the corpus:");
    assertThat(progress(trend(TrendMovement.NO_CLEAR_MOVEMENT, 4, false)))
        .startsWith("No clear movement:");
    assertThat(progress(trend(TrendMovement.TOO_FEW_DATES, 2, false)))
        .startsWith("Too few dates with enough music to tell a movement (2 of the three it takes)");
  }

  @Test
  void progressWithoutTheTableTellsTheValuesOnly() {
    assertThat(progress(null)).isEqualTo("From 5.00 to 4.00\u00a0bars over 4\u00a0dated solos.");
  }

  @Test
  void surenessTellsABoundAndWhereSuchAValueUsuallyLies() {
    assertThat(sureness(0.012, Interval.NONE, Interval.NONE))
        .isEqualTo(
            "This stands out clearly: 44\u00a0figures were tested together, and of those that stand"
                + " out at least as clearly at most 2 in 100 do so by chance. Such a value of a"
                + " further player of the corpus would usually lie from"
                + " 1.50\u00a0to\u00a04.00\u00a0bars at this tempo.");
    assertThat(sureness(0.4, Interval.NONE, Interval.NONE))
        .startsWith("This may well be chance:")
        .contains("at most 40 in 100");
    assertThat(sureness(0.001, Interval.NONE, Interval.NONE)).contains("fewer than one in 100");
  }

  @Test
  void surenessWithoutATestSaysThatItCannotBeTold() {
    assertThat(sureness(null, Interval.NONE, Interval.NONE))
        .startsWith("How sure this is cannot be told:");
  }

  /** A delta of -0.5 with an interval from -0.72 to -0.2: 75 pairs of 100, from 60 to 86. */
  @Test
  void aDescriptionTellsPairsInAHundredAndTheTypicalDifferenceWithIntervals() {
    assertThat(described(new Interval(-0.5, -0.72, -0.2), new Interval(-1.25, -2.0, -0.5)))
        .contains(
            "Phrase by phrase the typical difference is \u22121.25\u00a0bars (95\u00a0% interval"
                + " \u22122.00\u00a0to\u00a0\u22120.50\u00a0bars).")
        .endsWith(
            "Take one phrase from these solos and one from the corpus at random: in 75 of 100 such"
                + " pairs the student's has the lower value (ties counted half; 95\u00a0% interval"
                + " 60 to 86).");
    assertThat(described(new Interval(0.5, null, null), Interval.NONE))
        .endsWith(
            "in 75 of 100 such pairs the student's has the higher value (ties counted half; too few"
                + " solos for an interval).");
  }

  @Test
  void aVerdictHasOneIntervalHoweverPhrasesDiffer() {
    assertThat(sureness(0.04, new Interval(0.5, null, null), new Interval(1.25, null, null)))
        .containsOnlyOnce(" would usually lie from ")
        .endsWith(
            "Phrase by phrase the typical difference is +1.25\u00a0bars. Take one phrase from these"
                + " solos and one from the corpus at random: in 75 of 100 such pairs the student's"
                + " has the higher value (ties counted half).")
        .doesNotContain("95\u00a0%");
  }

  @Test
  void theMedianOfANormCarriesItsInterval() {
    assertThat(wording.medianInterval(LENGTH, norm(NormShown.QUARTILES, 20, 4, null)))
        .isEqualTo(
            "How sure the median is: with 20\u00a0solos by 4\u00a0players it lies between 2.25"
                + " and 2.75\u00a0bars (95\u00a0% interval).");
    assertThat(wording.medianInterval(LENGTH, norm(NormShown.LIST, 3, 3, null))).isEmpty();
  }

  @Test
  void everyCountHasWordsForOneAndForMany() {
    for (StatisticDefinition definition : StatisticsCatalogue.builtIn().all()) {
      for (int n : new int[] {1, 7}) {
        assertThat(wording.valueWithN(definition, 0.5, n))
            .as(definition.key())
            .doesNotContain("verdict")
            .doesNotContain("metre")
            .containsPattern("from " + n + "\u00a0[a-z]");
      }
    }
  }
}
