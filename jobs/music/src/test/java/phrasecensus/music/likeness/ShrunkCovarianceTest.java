package phrasecensus.music.likeness;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

class ShrunkCovarianceTest {
  /** scikit-learn 1.9.1: LedoitWolf(assume_centered=True).fit(rows), covariance_ and shrinkage_. */
  @Test
  void isThatOfScikitLearnWhereRowsAreFewerThanColumns() {
    ShrunkCovariance shrunk =
        ShrunkCovariance.of(
            List.of(
                new double[] {1, 0, 2, -1, 3},
                new double[] {0, -2, 1, 1, -1},
                new double[] {-1, 2, -3, 0, -2}));

    assertThat(shrunk.shrinkage()).isCloseTo(0.3956478733926805, within(1e-14));
    double[] firstRow = {1.45796241, -0.40290142, 1.00725354, -0.20145071, 1.00725354};
    for (int i = 0; i < firstRow.length; i++) {
      assertThat(shrunk.matrix()[0][i]).isCloseTo(firstRow[i], within(1e-8));
      assertThat(shrunk.matrix()[i][0]).isEqualTo(shrunk.matrix()[0][i]);
    }
  }

  /** scikit-learn 1.9.1: shrinkage_ 1.0, 2.8 on the diagonal, 0 elsewhere. */
  @Test
  void isAMultipleOfTheIdentityWhereAllThatDiffersMayBeChance() {
    ShrunkCovariance shrunk =
        ShrunkCovariance.of(
            List.of(
                new double[] {1, 2, 0},
                new double[] {-2, 1, 1},
                new double[] {0, -3, 2},
                new double[] {3, 0, -1},
                new double[] {-2, 0, -2}));

    assertThat(shrunk.shrinkage()).isEqualTo(1);
    assertThat(shrunk.matrix()[0][0]).isCloseTo(2.8, within(1e-12));
    assertThat(shrunk.matrix()[0][1]).isZero();
  }

  @Test
  void rowsThatLieEvenlyRoundTheMeanAreNotShrunk() {
    ShrunkCovariance shrunk =
        ShrunkCovariance.of(
            List.of(
                new double[] {1, 1},
                new double[] {1, -1},
                new double[] {-1, 1},
                new double[] {-1, -1}));

    assertThat(shrunk.shrinkage()).isZero();
    assertThat(shrunk.matrix()).isDeepEqualTo(new double[][] {{1, 0}, {0, 1}});
  }
}
