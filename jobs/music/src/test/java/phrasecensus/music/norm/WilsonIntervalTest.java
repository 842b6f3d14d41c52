package phrasecensus.music.norm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WilsonIntervalTest {
  /** The last five are cases tabled by Newcombe 1998 (from memory that they are). */
  @ParameterizedTest(name = "R: prop.test({0}, {1}, correct = FALSE)$conf.int is {2} to {3}")
  @CsvSource({
    "7, 10, .396778, .892209", "0, 10, 0, .277533", "10, 10, .722467, 1",
    "15, 20, .531299, .888138", "622, 1000, .591534, .651532", "81, 263, .255289, .366210",
    "15, 148, .062386, .160487", "0, 20, 0, .161125", "1, 29, .006113, .171755"
  })
  void agreesWithR(int part, int whole, double lower, double upper) {
    Interval interval = WilsonInterval.of(part, whole);

    assertThat(interval.lower()).isCloseTo(lower, within(1e-6));
    assertThat(interval.upper()).isCloseTo(upper, within(1e-6));
  }

  @Test
  void noneAndAllReachTheEndsExactly() {
    assertThat(WilsonInterval.of(0, 3).lower()).isZero();
    assertThat(WilsonInterval.of(3, 3).upper()).isEqualTo(1);
  }

  @Test
  void hugeCountsGiveNarrowIntervals() {
    Interval interval = WilsonInterval.of(5e11, 1e12);

    assertThat(interval.upper() - interval.lower()).isCloseTo(1.96e-6, within(1e-8));
  }

  @Test
  void refusesAShareOfNothing() {
    assertThatThrownBy(() -> WilsonInterval.of(0, 0))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid proportion: 0.0 of 0.0");
    assertThatThrownBy(() -> WilsonInterval.of(Double.NaN, 4))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid proportion: NaN of 4.0");
  }
}
