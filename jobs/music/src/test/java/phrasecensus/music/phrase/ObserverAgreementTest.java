package phrasecensus.music.phrase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * Worked examples of K. Krippendorff, Computing Krippendorff's Alpha-Reliability, 2011 (.095, .743,
 * .849); more digits with R 4.2.2.
 */
class ObserverAgreementTest {
  private static final double NONE = Double.NaN;

  private static final List<double[]> FOUR_WITH_GAPS =
      List.of(
          new double[] {1, 2, 3, 3, 2, 1, 4, 1, 2, NONE, NONE, NONE},
          new double[] {1, 2, 3, 3, 2, 2, 4, 1, 2, 5, NONE, 3},
          new double[] {NONE, 3, 3, 3, 2, 3, 4, 2, 2, 5, 1, NONE},
          new double[] {1, 2, 3, 3, 2, 4, 4, 1, 2, 5, 1, NONE});

  @Test
  void twoObserversOfTenBinaryUnits() {
    double[] one = {0, 1, 0, 0, 0, 0, 0, 0, 1, 0};
    double[] two = {1, 1, 1, 0, 0, 1, 0, 0, 0, 0};

    assertThat(ObserverAgreement.alpha(List.of(one, two), ObserverAgreement.NOMINAL))
        .isCloseTo(.095238095, within(1e-8));
  }

  @Test
  void fourObserversWithGapsByName() {
    assertThat(ObserverAgreement.alpha(FOUR_WITH_GAPS, ObserverAgreement.NOMINAL))
        .isCloseTo(.74342105, within(1e-8));
  }

  @Test
  void fourObserversWithGapsByDistance() {
    assertThat(ObserverAgreement.alpha(FOUR_WITH_GAPS, (one, two) -> (one - two) * (one - two)))
        .isCloseTo(.84910714, within(1e-8));
  }

  @Test
  void observersWhoSayTheSameAgreeFully() {
    double[] same = {0, 1, 1, 0};

    assertThat(ObserverAgreement.alpha(List.of(same, same), ObserverAgreement.NOMINAL))
        .isEqualTo(1);
    assertThat(
            ObserverAgreement.alpha(
                List.of(new double[] {0, 0}, new double[] {0, 0}), ObserverAgreement.NOMINAL))
        .isEqualTo(1);
  }

  @Test
  void oneObserverAloneSaysNothing() {
    assertThat(ObserverAgreement.alpha(List.of(new double[] {0, 1}), ObserverAgreement.NOMINAL))
        .isNaN();
    assertThat(ObserverAgreement.alpha(List.of(), ObserverAgreement.NOMINAL)).isNaN();
  }

  @Test
  void observersMustLookAtTheSameUnits() {
    assertThatThrownBy(
            () ->
                ObserverAgreement.alpha(
                    List.of(new double[] {0}, new double[] {0, 1}), ObserverAgreement.NOMINAL))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid observers: they differ in the number of units");
  }
}
