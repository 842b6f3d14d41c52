package phrasecensus.music.statistic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

/** Values by R 4.2.2 from {@code -sum(p * log2(p))}. */
class EntropyTest {
  private static final int[] TWENTY_FOUR_NOTES = {5, 1, 3, 0, 4, 1, 0, 4, 0, 3, 1, 2};

  @Test
  void halfAQuarterAndTwoEighthsAreOneAndThreeQuartersBits() {
    assertThat(Entropy.bits(new int[] {4, 2, 1, 1})).isCloseTo(1.75, within(1e-12));
  }

  @Test
  void equalClassesReachTheLogarithmOfTheirNumber() {
    int[] twelve = new int[12];
    Arrays.fill(twelve, 3);

    assertThat(Entropy.bits(twelve)).isCloseTo(3.5849625, within(1e-7));
    assertThat(Entropy.bits(new int[] {2, 2, 2, 2, 2, 2, 2})).isCloseTo(2.8073549, within(1e-7));
  }

  @Test
  void classesWithoutCountAddNothing() {
    assertThat(Entropy.bits(TWENTY_FOUR_NOTES)).isCloseTo(2.9549869, within(1e-7));
  }

  @Test
  void millerMadowAddsTheBiasOfTheClassesMet() {
    assertThat(Entropy.millerMadow(TWENTY_FOUR_NOTES)).isCloseTo(3.195436, within(1e-6));
  }

  @Test
  void oneClassOrNothingHasNoEntropy() {
    assertThat(Entropy.bits(new int[] {0, 7, 0})).isZero();
    assertThat(Entropy.millerMadow(new int[] {0, 7, 0})).isZero();
    assertThat(Entropy.bits(new int[12])).isZero();
    assertThat(Entropy.millerMadow(new int[12])).isZero();
  }
}
