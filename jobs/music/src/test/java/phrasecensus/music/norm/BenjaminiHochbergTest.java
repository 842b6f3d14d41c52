package phrasecensus.music.norm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

class BenjaminiHochbergTest {
  /** The fifteen p-values of Benjamini and Hochberg 1995. */
  private static final double[] PUBLISHED = {
    .0001, .0004, .0019, .0095, .0201, .0278, .0298, .0344, .0459, .3240, .4262, .5719, .6528,
    .7590, 1
  };

  /** R: p.adjust(p, "BH"). */
  @Test
  void adjustedValuesAgreeWithR() {
    assertThat(BenjaminiHochberg.adjusted(PUBLISHED))
        .containsExactly(
            new double[] {
              .0015, .003, .0095, .035625, .0603, .063857, .063857, .0645, .0765, .486, .581182,
              .714875, .753231, .813214, 1
            },
            within(1e-6));
  }

  /** The paper reports four rejections at .05. */
  @Test
  void fourOfThePublishedHypothesesAreRejected() {
    assertThat(Arrays.stream(BenjaminiHochberg.adjusted(PUBLISHED)).filter(p -> p <= .05).count())
        .isEqualTo(4);
  }

  @Test
  void keepsTheOrderGiven() {
    assertThat(BenjaminiHochberg.adjusted(.04, .01, .02))
        .containsExactly(new double[] {.04, .03, .03}, within(1e-12));
  }

  @Test
  void noTestsGiveNoValues() {
    assertThat(BenjaminiHochberg.adjusted()).isEmpty();
  }

  @Test
  void refusesWhatIsNoProbability() {
    assertThatThrownBy(() -> BenjaminiHochberg.adjusted(.5, Double.NaN))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid p-value: NaN");
  }
}
