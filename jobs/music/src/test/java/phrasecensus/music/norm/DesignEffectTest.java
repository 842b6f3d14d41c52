package phrasecensus.music.norm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DesignEffectTest {
  @ParameterizedTest(name = "R: 1 + (24.3 - 1) * {0} is {1}")
  @CsvSource({".05, 2.165", ".10, 3.33", ".20, 5.66"})
  void agreesWithR(double correlation, double expected) {
    assertThat(DesignEffect.of(24.3, correlation)).isCloseTo(expected, within(1e-9));
  }

  @Test
  void clustersOfOneAreIndependent() {
    assertThat(DesignEffect.of(1, .9)).isEqualTo(1);
    assertThat(DesignEffect.effectiveSize(new int[] {1, 1, 1}, .9)).isEqualTo(3);
  }

  @Test
  void fullyAlikeClustersCountOnceEach() {
    assertThat(DesignEffect.effectiveSize(new int[] {8, 8, 8}, 1)).isEqualTo(3);
  }

  @Test
  void aNegativeCorrelationGainsNothing() {
    assertThat(DesignEffect.of(10, -.05)).isEqualTo(1);
  }

  /**
   * The dyestuff data of O. L. Davies, "Statistical Methods in Research and Production" (1947):
   * yield of five samples of six batches. Published there and in the manual of R's lme4 (variances
   * between 1764.05 and within 2451.25); data and result from memory, the result checked here.
   */
  @Test
  void intraclassCorrelationOfTheDyestuffData() {
    IntraclassCorrelation correlation =
        IntraclassCorrelation.of(
            List.of(
                new double[] {1545, 1440, 1440, 1520, 1580},
                new double[] {1540, 1555, 1490, 1560, 1495},
                new double[] {1595, 1550, 1605, 1510, 1560},
                new double[] {1445, 1440, 1595, 1465, 1545},
                new double[] {1595, 1630, 1515, 1635, 1625},
                new double[] {1520, 1455, 1450, 1480, 1445}));

    assertThat(correlation.meanSquareWithin()).isCloseTo(2451.25, within(1e-9));
    assertThat(correlation.varianceBetween()).isCloseTo(1764.05, within(1e-9));
    assertThat(correlation.value()).isCloseTo(1764.05 / (1764.05 + 2451.25), within(1e-12));
  }

  @Test
  void intraclassCorrelationOfEqualValuesIsZero() {
    assertThat(IntraclassCorrelation.of(List.of(new double[] {2, 2}, new double[] {2, 2})).value())
        .isZero();
  }

  @Test
  void intraclassCorrelationNeedsAClusterOfTwo() {
    assertThatThrownBy(
            () ->
                IntraclassCorrelation.of(
                    List.of(new double[] {1}, new double[] {2}, new double[0])))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Cannot give an intraclass correlation: 2 values in 2 clusters");
  }
}
