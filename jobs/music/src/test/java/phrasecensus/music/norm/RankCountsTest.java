package phrasecensus.music.norm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.apache.commons.statistics.inference.AlternativeHypothesis;
import org.apache.commons.statistics.inference.MannWhitneyUTest;
import org.apache.commons.statistics.inference.PValueMethod;
import org.junit.jupiter.api.Test;

class RankCountsTest {
  /** Mahonian numbers of four and five, OEIS A008302. */
  @Test
  void ordersOfSingleValuesAreMahonian() {
    assertThat(RankCounts.byInversions(1, 1, 1, 1)).containsExactly(1, 3, 5, 6, 5, 3, 1);
    assertThat(RankCounts.byInversions(1, 1, 1, 1, 1))
        .containsExactly(1, 4, 9, 15, 20, 22, 20, 15, 9, 4, 1);
  }

  @Test
  void twoGroupsGiveTheMannWhitneyDistribution() {
    double[] counts = RankCounts.byInversions(2, 3);

    assertThat(counts).containsExactly(1, 1, 2, 2, 2, 1, 1);
  }

  /** Against the library's own exact p-value: a sample wholly below, then moved up by pairs. */
  @Test
  void lowerTailIsThatOfTheLibrary() {
    MannWhitneyUTest exact =
        MannWhitneyUTest.withDefaults()
            .with(AlternativeHypothesis.LESS_THAN)
            .with(PValueMethod.EXACT);
    double[] counts = RankCounts.byInversions(20, 30);
    double total = Arrays.stream(counts).sum();
    for (int w : new int[] {0, 1, 5, 20}) {
      double[] x = new double[20];
      double[] y = new double[30];
      for (int i = 0; i < 20; i++) {
        x[i] = -i - 1;
      }
      for (int j = 0; j < 30; j++) {
        y[j] = 10 * j;
      }
      x[0] = w == 0 ? -1 : 10 * (w - 1) + 5;

      double below = Arrays.stream(counts, 0, w + 1).sum() / total;

      assertThat(below).isCloseTo(exact.test(x, y).getPValue(), within(1e-12 * below));
    }
  }

  @Test
  void largeCountsStaySound() {
    double[] counts = RankCounts.byInversions(49, 49);

    assertThat(Arrays.stream(counts).sum()).isCloseTo(2.5477612258980867e28, within(1e16));
    for (int k = 0; k <= counts.length / 2; k++) {
      assertThat(counts[k]).isCloseTo(counts[counts.length - 1 - k], within(1e14));
    }
  }
}
