package phrasecensus.music.harmony;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.harmony.TonalCentre.Mode;

/** Scales as every theory primer gives them (common practice, no source). */
class CentreScaleTest {
  @ParameterizedTest(name = "{1} on {0} over {2}")
  @CsvSource({
    "0, MAJOR, C, 0 2 4 5 7 9 11",
    "9, MINOR, Am, 0 2 4 5 6 7 8 9 11",
    "5, BLUES, F7, 0 2 3 5 7 8 9 10 11",
    "2, MODAL, Dm7, 0 2 4 5 7 9 11",
    "7, MODAL, G7sus4, 0 2 4 5 7 9 11",
    "5, MODAL, Fmaj7, 0 2 4 5 7 9 11",
    "2, MODAL, G7, 0 2 4 5 7 9 11"
  })
  void scaleOfACentre(int tonic, Mode mode, String chord, String pitchClasses) {
    TonalCentre centre = new TonalCentre(tonic, mode);
    CentreScale scale = CentreScale.of(centre, SoloText.chord(chord)).orElseThrow();

    String found =
        IntStream.range(0, 12)
            .filter(pitchClass -> scale.contains(tonic, pitchClass))
            .mapToObj(Integer::toString)
            .collect(Collectors.joining(" "));

    assertThat(found).isEqualTo(pitchClasses);
  }

  @Test
  void unknownCentreHasNoScale() {
    assertThat(CentreScale.of(TonalCentre.UNKNOWN, null)).isEmpty();
  }

  @Test
  void chanceShareIsTheSizeOfTheScaleOverTwelve() {
    assertThat(CentreScale.IONIAN.chanceShare()).isEqualTo(7 / 12.0);
    assertThat(CentreScale.MINOR.chanceShare()).isEqualTo(9 / 12.0);
    assertThat(CentreScale.BLUES.chanceShare()).isEqualTo(9 / 12.0);
  }
}
