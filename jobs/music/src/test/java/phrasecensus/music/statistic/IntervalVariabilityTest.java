package phrasecensus.music.statistic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class IntervalVariabilityTest {
  /** C D E F G C; the value stands in the manual of music21 and was recomputed with R 4.2.2. */
  @Test
  void fiveIntervalsHaveThePublishedValue() {
    assertThat(IntervalVariability.coefficient(2, 2, 1, 2, 7)).isCloseTo(85.266688, within(1e-6));
  }

  @Test
  void equalIntervalsDoNotVary() {
    assertThat(IntervalVariability.coefficient(2, 2, 2)).isZero();
  }

  @Test
  void oneIntervalOrUnisonsAloneHaveNoValue() {
    assertThat(IntervalVariability.coefficient(2)).isNaN();
    assertThat(IntervalVariability.coefficient(0, 0, 0)).isNaN();
  }
}
