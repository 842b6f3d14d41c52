package phrasecensus.report.lesson;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.time.Fraction;
import phrasecensus.report.rows.SoloFacts;
import phrasecensus.report.rows.SoloLine;

class HomeTest {
  private static SoloFacts facts(Integer tonic, String mode, String scale) {
    return new SoloFacts(
        "s",
        "s",
        "Ada",
        null,
        "",
        "",
        "",
        "4/4",
        null,
        null,
        tonic,
        mode,
        1,
        1,
        1,
        Map.of("centre_scale", scale),
        Map.of());
  }

  private static SoloLine line(Integer signature, int transposition) {
    SoloLine.Staff staff =
        new SoloLine.Staff(null, signature, null, false, false, null, false, false);
    SoloLine.BarSpan bar =
        new SoloLine.BarSpan(
            0, "1", Fraction.ZERO, Fraction.of(4), "4/4", Fraction.ZERO, false, null, staff);
    SoloLine.Tone note =
        new SoloLine.Tone(
            0, Fraction.ZERO, Fraction.ONE, 60 + transposition, "C4", transposition, "C4", null);
    return new SoloLine(List.of(bar), List.of(), List.of(note), List.of(), List.of());
  }

  /** Key signatures and their tonics: common practice, no source. */
  @ParameterizedTest
  @CsvSource({
    "7, major, major, 1, 0, G major, G A B C D",
    "10, major, major, -2, 0, B♭ major, B♭ C D E♭ F",
    "1, major, major, -5, 0, D♭ major, D♭ E♭ F G♭ A♭",
    "1, minor, natural_minor, 4, 0, C♯ minor, C♯ D♯ E F♯ G♯",
    "4, minor, harmonic_minor, 1, 0, E minor, E F♯ G A B",
    "5, blues, blues, -1, 0, F blues, F A♭ B♭ C E♭",
    "2, modal, dorian, 0, 0, D dorian, D E F G A",
    "4, modal, phrygian, 0, 0, E phrygian, E F G A B",
    "5, modal, lydian, 0, 0, F lydian, F G A B C",
    "10, major, major, 1, 9, G major, G A B C D"
  })
  void theKeyIsNamedAsItsPlayerReadsIt(
      int tonic, String mode, String scale, int signature, int up, String words, String five) {
    Home home = Home.of(facts(tonic, mode, scale), line(signature, up)).orElseThrow();

    assertThat(home.words()).isEqualTo(words);
    assertThat(home.five()).isEqualTo(five);
    assertThat(home.signature()).isEqualTo(signature);
  }

  @Test
  void thirdAndFifthBelongToTheScale() {
    Home home = Home.of(facts(0, "minor", "natural_minor"), line(-3, 0)).orElseThrow();

    assertThat(home.third()).isEqualTo("E♭");
    assertThat(home.fifth()).isEqualTo("G");
  }

  @Test
  void anUnknownCentreIsNoKey() {
    assertThat(Home.of(facts(null, "unknown", ""), line(1, 0))).isEqualTo(Optional.empty());
  }

  @Test
  void whereNoKeyIsKnownTheSignatureGivesOne() {
    assertThat(Home.ofSignature(facts(null, "unknown", ""), line(1, 0)).words())
        .isEqualTo("G major");
    assertThat(Home.ofSignature(facts(null, "unknown", ""), line(null, 0)).words())
        .isEqualTo("C major");
  }
}
