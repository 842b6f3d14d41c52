package phrasecensus.music.norm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class CounterRandomTest {
  /**
   * The JDK's generator is the published SplitMix64: its stream from seed s starts with mix(s + G),
   * which is also the first fold here, so three such steps give the start of a stream.
   */
  @Test
  void foldsAndRunsAsSplitMix64() {
    long first = new SplittableRandom(42).nextLong();
    long second = new SplittableRandom(first + 7).nextLong();
    long third = new SplittableRandom(second + 3).nextLong();
    SplittableRandom expected = new SplittableRandom(third);

    CounterRandom random = CounterRandom.of(42, 7, 3);

    for (int i = 0; i < 100; i++) {
      assertThat(random.bits()).isEqualTo(expected.nextLong());
    }
  }

  @Test
  void indexesAreEvenlySpread() {
    int[] counts = new int[7];
    for (int replicate = 0; replicate < 70_000; replicate++) {
      counts[CounterRandom.of(1, replicate, 0).index(7)]++;
    }

    for (int count : counts) {
      assertThat(count).isCloseTo(10_000, within(400));
    }
  }

  @Test
  void gaussiansHaveMeanZeroAndVarianceOne() {
    CounterRandom random = CounterRandom.of(9, 0, 0);
    double sum = 0;
    double squares = 0;
    for (int i = 0; i < 100_000; i++) {
      double value = random.gaussian();
      sum += value;
      squares += value * value;
    }

    assertThat(sum / 100_000).isCloseTo(0, within(0.015));
    assertThat(squares / 100_000).isCloseTo(1, within(0.02));
  }

  @Test
  void refusesAnEmptyChoice() {
    assertThatThrownBy(() -> CounterRandom.of(1, 1, 1).index(0))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid bound of a random index: 0");
  }
}
