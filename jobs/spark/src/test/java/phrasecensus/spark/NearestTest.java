package phrasecensus.spark;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class NearestTest {
  @Test
  void whatIsKeptDoesNotDependOnTheOrderOfComing() {
    for (int seed = 0; seed < 200; seed++) {
      Random random = new Random(seed);
      List<Integer> numbers = new ArrayList<>(IntStream.range(0, 1 + seed % 9).boxed().toList());
      Collections.shuffle(numbers, random);
      Nearest<Integer> nearest = new Nearest<>(4, Comparator.<Integer>naturalOrder());
      numbers.forEach(nearest::add);

      assertThat(nearest.inOrder())
          .as("seed %d", seed)
          .isEqualTo(numbers.stream().sorted().limit(4).toList());
    }
  }
}
