package phrasecensus.music.harmony;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.score.Metre;
import phrasecensus.music.time.Fraction;

/** Twelve-bar schemes as handbooks print them (common practice, no source). */
class BluesFormTest {
  @ParameterizedTest(name = "{0}")
  @CsvSource({
    "basic, 0:F7 16:Bb7 24:F7 32:C7 36:Bb7 40:F7 44:C7, false",
    "quick change, 0:F7 4:Bb7 8:F7 16:Bb7 24:F7 32:C7 36:Bb7 40:F7 44:C7, false",
    "jazz, 0:F7 4:Bb7 8:F7 12:Cm7 14:F7 16:Bb7 20:Bo7 24:F7 28:D7 32:Gm7 36:C7 40:F7 44:Gm7, false",
    "thirds in bars 7 and 11, 0:Fmaj7 4:Em7b5 6:A7 8:Dm7 10:G7 12:Cm7 14:F7 16:Bb7 24:Am7 26:D7"
        + " 32:Gm7 36:C7 40:Am7 42:D7 44:Gm7, false",
    "triads, 0:F 16:Bb 24:F 28:D7 32:Gm7 36:C7 40:F, false",
    "thirds in bar 7, 0:F6 16:Bb7 24:Am7 28:D7 32:Gm7 36:C7 40:F6 44:C7, false",
    "minor, 0:Fm7 16:Bbm7 24:Fm7 32:Db7 36:C7 40:Fm7 44:C7, true"
  })
  void twelveBarSchemesAreFound(String name, String chords, boolean minor) {
    BluesForm form = BluesForm.find(SoloText.solo(Metre.of(4, 4), 12, "", chords)).orElseThrow();

    assertThat(form).isEqualTo(new BluesForm(5, minor, 0, 1));
  }

  @Test
  void chorusBeginsAfterThePickup() {
    BluesForm form =
        BluesForm.find(
                SoloText.solo(
                    Metre.of(4, 4),
                    12,
                    Fraction.ONE,
                    "",
                    "0:C7 1:F7 17:Bb7 25:F7 33:C7 37:Bb7 41:F7 45:C7"))
            .orElseThrow();

    assertThat(form.firstBar()).isEqualTo(0);
    assertThat(form.tonic()).isEqualTo(5);
  }

  @ParameterizedTest
  @CsvSource({
    "0:F7",
    "0:F7 4:Bb7 8:F7 12:Bb7 16:F7 20:Bb7 24:F7 28:Bb7 32:F7 36:Bb7 40:F7 44:Bb7",
    "0:Dm7 32:Ebm7",
    // Twelve bars of folk song: the points are those of a blues, the chords are not.
    "0:F 8:C 12:F 16:Bb 20:F 24:F 32:C 40:F",
    // Tonic in bar 9.
    "0:F7 16:Bb7 24:F7 36:C7 40:F7",
    "0:NC",
    "''"
  })
  void otherChordsAreNoBlues(String chords) {
    assertThat(BluesForm.find(SoloText.solo(Metre.of(4, 4), 12, "", chords))).isEmpty();
  }

  /** Sixteen bars; from bar 9 on and round again the points would be those of a blues on F. */
  @Test
  void oneChorusBeginsOnItsFirstBar() {
    String chords = "0:Bb 8:F 12:C7 16:F7 32:Bb7 40:F7 48:C7 52:F7";

    assertThat(BluesForm.find(SoloText.solo(Metre.of(4, 4), 16, "", chords))).isEmpty();
  }

  @Test
  void soloWithoutBarsIsNoBlues() {
    assertThat(BluesForm.find(SoloText.solo(Metre.of(4, 4), 0, "", ""))).isEmpty();
  }
}
