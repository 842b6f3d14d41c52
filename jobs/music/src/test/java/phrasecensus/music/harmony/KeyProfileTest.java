package phrasecensus.music.harmony;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import phrasecensus.music.harmony.TonalCentre.Mode;

/** Correlations computed with R 4.2.2 ({@code cor}) from the same profile. */
class KeyProfileTest {
  private static final double[] MAJOR_LINE = {5, 1, 3, 0, 4, 1, 0, 4, 0, 3, 1, 2};
  private static final double[] BLUES_LINE = {6, 0, 1, 3, 2, 3, 1, 4, 0, 1, 4, 0};

  @Test
  void majorLineCorrelatesBestWithItsKey() {
    KeyProfile.Fit fit = KeyProfile.of(MAJOR_LINE);

    assertThat(fit.centre()).isEqualTo(new TonalCentre(0, Mode.MAJOR));
    assertThat(fit.correlation()).isCloseTo(0.909460, within(1e-6));
    assertThat(fit.margin()).isCloseTo(0.909460 - 0.663384, within(2e-6));
  }

  @Test
  void nextBestKeysAreTheDominantAndTheRelative() {
    assertThat(KeyProfile.correlation(MAJOR_LINE, new TonalCentre(7, Mode.MAJOR)))
        .isCloseTo(0.663384, within(1e-6));
    assertThat(KeyProfile.correlation(MAJOR_LINE, new TonalCentre(9, Mode.MINOR)))
        .isCloseTo(0.647018, within(1e-6));
  }

  @Test
  void bluesLineInCIsTakenForFMajor() {
    KeyProfile.Fit fit = KeyProfile.of(BLUES_LINE);

    assertThat(fit.centre()).isEqualTo(new TonalCentre(5, Mode.MAJOR));
    assertThat(fit.correlation()).isCloseTo(0.622112, within(1e-6));
  }

  @Test
  void twoPitchClassesTellNoKey() {
    KeyProfile.Fit fit = KeyProfile.of(new double[] {3, 0, 0, 0, 0, 0, 0, 2, 0, 0, 0, 0});

    assertThat(fit.centre()).isEqualTo(TonalCentre.UNKNOWN);
    assertThat(fit.margin()).isZero();
  }

  @Test
  void equalShareOfAllTonesTellsNoKey() {
    double[] sums = new double[12];
    java.util.Arrays.fill(sums, 0.1);

    assertThat(KeyProfile.of(sums).centre()).isEqualTo(TonalCentre.UNKNOWN);
  }
}
