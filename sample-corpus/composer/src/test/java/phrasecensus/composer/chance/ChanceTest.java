package phrasecensus.composer.chance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class ChanceTest {
  /** The JDK's SplittableRandom is the same generator (Steele, Lea and Flood 2014). */
  @Test
  void bitsAreThoseOfTheJdkGenerator() {
    for (long seed = -3; seed < 20; seed++) {
      Chance chance = new Chance(seed);
      SplittableRandom reference = new SplittableRandom(seed);
      for (int i = 0; i < 50; i++) {
        assertThat(chance.bits()).as("seed %d, draw %d", seed, i).isEqualTo(reference.nextLong());
      }
    }
  }

  @Test
  void branchDoesNotDependOnWhatWasDrawnBefore() {
    Chance fresh = new Chance(7);
    Chance used = new Chance(7);
    used.bits();

    assertThat(used.branch("plan").bits()).isEqualTo(fresh.branch("plan").bits());
    assertThat(fresh.branch("other").bits()).isNotEqualTo(fresh.branch("plan").bits());
  }

  @Test
  void indexFollowsTheWeights() {
    Chance chance = new Chance(11);
    int[] counts = new int[3];
    for (int i = 0; i < 30_000; i++) {
      counts[chance.index(new double[] {1, 0, 3})]++;
    }

    assertThat(counts[1]).isZero();
    assertThat(counts[2] / 30_000.0).isBetween(0.735, 0.765);
  }

  @Test
  void noPositiveWeightIsRefused() {
    assertThatThrownBy(() -> new Chance(1).index(new double[] {0, 0}))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Cannot choose: no weight is positive");
  }

  @Test
  void logNormalHasItsMedian() {
    Chance chance = new Chance(3);
    int below = 0;
    for (int i = 0; i < 20_000; i++) {
      below += chance.logNormal(8, 0.5) < 8 ? 1 : 0;
    }

    assertThat(below / 20_000.0).isBetween(0.48, 0.52);
  }
}
