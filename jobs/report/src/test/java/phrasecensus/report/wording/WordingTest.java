package phrasecensus.report.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import phrasecensus.report.rows.Comparison;
import phrasecensus.report.rows.CorpusNorm;
import phrasecensus.report.rows.Group;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;

class WordingTest {
  private static final StatisticDefinition LENGTH =
      StatisticsCatalogue.builtIn().named("phrase_length_bars").orElseThrow();
  private static final StatisticDefinition SOUND =
      StatisticsCatalogue.builtIn().named("sounding_share").orElseThrow();

  private final Wording wording = new Wording(new Numbers(Locale.ENGLISH));

  private static CorpusNorm norm(CorpusNorm.Shown shown, int n, int players, String dominant) {
    boolean band = shown.compareTo(CorpusNorm.Shown.QUARTILES) >= 0;
    boolean median = shown != CorpusNorm.Shown.LIST;
    return new CorpusNorm(
        Group.ALL,
        "phrase_length_bars",
        n,
        0,
        players,
        shown,
        dominant,
        1.0,
        null,
        null,
        band ? 2.0 : null,
        median ? 2.5 : null,
        band ? 3.0 : null,
        null,
        null,
        4.0,
        2.5);
  }

  private static Comparison comparison(Comparison.Verdict verdict, Double value, String position) {
    return new Comparison(
        "A",
        true,
        "",
        Group.ALL,
        "phrase_length_bars",
        value,
        15,
        48,
        position,
        verdict,
        0.0,
        null);
  }

  private String progress(double first, double last) {
    return wording.progress(LENGTH, norm(CorpusNorm.Shown.QUARTILES, 20, 4, null), first, last, 4);
  }

  @Test
  void aStandingTellsValueNAndPlace() {
    assertThat(
            wording.standing(
                new Wording.Standing(
                    LENGTH,
                    comparison(Comparison.Verdict.ABOVE, 5.1, "longer phrases than 47 of 48 solos"),
                    null)))
        .isEqualTo(
            "5.10\u00a0bars (n\u00a015 phrases in a metre). That is longer phrases than 47 of 48"
                + " solos in this corpus.");
  }

  @Test
  void aPositionInOtherWordsIsPrintedAsItStands() {
    assertThat(
            wording.standing(
                new Wording.Standing(
                    LENGTH,
                    comparison(Comparison.Verdict.INSIDE, 2.5, "the same as all 10 solos"),
                    null)))
        .endsWith("Beside the corpus: the same as all 10 solos in this corpus.");
  }

  @Test
  void anUndefinedValueSaysWhy() {
    assertThat(
            wording.standing(
                new Wording.Standing(
                    LENGTH, comparison(Comparison.Verdict.TOO_LITTLE, null, ""), null)))
        .isEqualTo("No value here (no metre, n\u00a015).");
  }

  @Test
  void anAnswerNamesTheDirectionsOutsideTheMiddleHalf() {
    assertThat(
            wording.answer(
                List.of(
                    new Wording.Standing(
                        LENGTH, comparison(Comparison.Verdict.ABOVE, 5.1, ""), null),
                    new Wording.Standing(
                        SOUND, comparison(Comparison.Verdict.INSIDE, 0.8, ""), null))))
        .isEqualTo(
            "Longer phrases than in the middle half of this corpus. Inside it: share of time that"
                + " sounds.");
  }

  @Test
  void anAnswerWithoutANormSaysSo() {
    assertThat(
            wording.answer(
                List.of(
                    new Wording.Standing(
                        LENGTH, comparison(Comparison.Verdict.NO_NORM, 5.1, ""), null))))
        .isEqualTo("The corpus has too few solos for a norm, so only the values are shown.");
  }

  @Test
  void anAnswerFromNothingSaysSo() {
    assertThat(wording.answer(List.of())).isEqualTo("This study has no value to answer it with.");
  }

  @Test
  void fewSolosAreListed() {
    assertThat(
            wording.norm(LENGTH, norm(CorpusNorm.Shown.LIST, 3, 3, null), List.of(1.0, 2.25, 4.0)))
        .isEqualTo(
            "3\u00a0solos by 3\u00a0players: too few solos for a norm. The values are"
                + " 1.00\u00a0bars, 2.25\u00a0bars and 4.00\u00a0bars.");
  }

  @Test
  void aGroupOfOnePlayerIsNamedAfterThePlayer() {
    assertThat(
            wording.norm(LENGTH, norm(CorpusNorm.Shown.QUARTILES, 20, 4, "B. Player"), List.of()))
        .isEqualTo(
            "The middle half of 20\u00a0solos by 4\u00a0players lies from 2.00 to 3.00\u00a0bars;"
                + " the median is 2.50\u00a0bars. More than half of these solos are by B. Player:"
                + " read it as that player's.");
  }

  @Test
  void progressIsSeenFromTheMiddleBand() {
    assertThat(progress(5, 4))
        .startsWith("Moved toward the middle band of 2.00 to 3.00\u00a0bars:");
    assertThat(progress(4, 5)).startsWith("Moved away from the middle band");
    assertThat(progress(5, 2.5)).startsWith("Moved into the middle band");
    assertThat(progress(2.5, 5)).startsWith("Moved out of the middle band");
    assertThat(progress(2.1, 2.9)).startsWith("At both ends inside the middle band");
    assertThat(progress(5, 1)).startsWith("Moved to the other side of the middle band");
    assertThat(progress(5, 4.95)).startsWith("About as far from the middle band");
    assertThat(progress(5, 4)).endsWith(": from 5.00 to 4.00\u00a0bars (n\u00a04 dated solos).");
  }

  @Test
  void progressWithoutABandTellsTheValuesOnly() {
    assertThat(wording.progress(LENGTH, null, 5, 4, 3))
        .isEqualTo(
            "From 5.00 to 4.00\u00a0bars (n\u00a03 dated solos); the corpus is too small for a"
                + " middle band.");
  }
}
