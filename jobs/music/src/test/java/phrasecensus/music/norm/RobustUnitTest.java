package phrasecensus.music.norm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class RobustUnitTest {
  /** R: IQR(x10, type = 8) = 2.1666667, median 3.25. */
  @Test
  void isTheMedianAndTheInterquartileRangeOver1349() {
    RobustUnit unit = RobustUnit.of(QuantilesTest.X10).orElseThrow();

    assertThat(unit.median()).isEqualTo(3.25);
    assertThat(unit.spread()).isCloseTo(2.1666667 / 1.349, within(1e-6));
  }

  @Test
  void aSampleThatStandsStillHasNone() {
    assertThat(RobustUnit.of(Sample.of(1, 1, 1))).isEmpty();
  }
}
