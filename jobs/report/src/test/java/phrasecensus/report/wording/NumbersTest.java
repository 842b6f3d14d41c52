package phrasecensus.report.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import org.junit.jupiter.api.Test;
import phrasecensus.tables.StatisticsCatalogue;

class NumbersTest {
  private final Numbers english = new Numbers(Locale.ENGLISH);

  @Test
  void halvesRoundUp() {
    assertThat(english.decimal(0.125, 2)).isEqualTo("0.13");
    assertThat(english.percent(0.125)).isEqualTo("13\u00a0%");
  }

  @Test
  void zeroHasNoSign() {
    assertThat(english.decimal(-0.001, 2)).isEqualTo("0.00");
  }

  @Test
  void unitsFollowTheCatalogue() {
    StatisticsCatalogue catalogue = StatisticsCatalogue.builtIn();

    assertThat(english.withUnit(catalogue.named("phrase_length_bars").orElseThrow(), 2))
        .isEqualTo("2.00\u00a0bars");
    assertThat(english.range(catalogue.named("sounding_share").orElseThrow(), 0.6, 0.72))
        .isEqualTo("60\u00a0to\u00a072\u00a0%");
    assertThat(english.withUnit(catalogue.named("onset_gap_npvi").orElseThrow(), 36.62))
        .isEqualTo("36.6");
  }

  @Test
  void datesAreWrittenOutAndOthersLeft() {
    assertThat(english.date("2026-03-14")).isEqualTo("14 Mar 2026");
    assertThat(english.date("spring 2026")).isEqualTo("spring 2026");
    assertThat(english.date("2026-13-40")).isEqualTo("2026-13-40");
  }

  /** Medium date patterns of the Unicode locale data (CLDR), which the JDK ships. */
  @Test
  void otherLocalesWriteNumbersAndDatesTheirWay() {
    Numbers german = new Numbers(Locale.GERMAN);
    Numbers french = new Numbers(Locale.FRENCH);

    assertThat(german.decimal(1972.5, 2)).isEqualTo("1.972,50");
    assertThat(french.decimal(1972.5, 2)).isEqualTo("1\u202f972,50");
    assertThat(german.date("2026-03-14")).isEqualTo("14.03.2026");
    assertThat(french.date("2026-03-14")).isEqualTo("14 mars 2026");
    assertThat(german.date("spring 2026")).isEqualTo("spring 2026");
  }

  @Test
  void aValueOfOnePhraseHasNoIdleDecimals() {
    StatisticsCatalogue catalogue = StatisticsCatalogue.builtIn();

    assertThat(english.ofPhrase(catalogue.named("phrase_notes").orElseThrow(), 72))
        .isEqualTo("72\u00a0notes");
    assertThat(english.ofPhrase(catalogue.named("phrase_length_bars").orElseThrow(), 2.125))
        .isEqualTo("2.13\u00a0bars");
    assertThat(english.ofPhrase(catalogue.named("sounding_share").orElseThrow(), 1))
        .isEqualTo("100\u00a0%");
  }

  @Test
  void degreesGetTheirAccidentals() {
    assertThat(MusicText.degree("b9")).isEqualTo("\u266d9");
    assertThat(MusicText.degree("bb7")).isEqualTo("\u266d\u266d7");
    assertThat(MusicText.degree("#11")).isEqualTo("\u266f11");
    assertThat(MusicText.degree(null)).isEqualTo("\u2013");
  }
}
