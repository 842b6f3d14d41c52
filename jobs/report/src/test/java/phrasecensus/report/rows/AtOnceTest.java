package phrasecensus.report.rows;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import org.junit.jupiter.api.Test;

class AtOnceTest {
  @Test
  void whatIsMadeComesInTheOrderAskedFor() {
    List<Callable<Integer>> making = new ArrayList<>();
    for (int i = 0; i < 200; i++) {
      int place = i;
      making.add(() -> place);
    }

    assertThat(AtOnce.made(making)).isSorted().hasSize(200);
  }

  @Test
  void anEarlierOneThatWaitsComesFirstAllTheSame() {
    CountDownLatch begun = new CountDownLatch(1);
    Callable<String> first =
        () -> {
          if (Runtime.getRuntime().availableProcessors() > 1) {
            begun.await();
          }
          return "first";
        };
    Callable<String> second =
        () -> {
          begun.countDown();
          return "second";
        };

    assertThat(AtOnce.made(List.of(first, second))).containsExactly("first", "second");
  }

  @Test
  void aFaultComesAsItIsThrown() {
    Callable<String> fault =
        () -> {
          throw new IllegalArgumentException("a rhythm that is not drawn");
        };

    assertThatThrownBy(() -> AtOnce.made(List.of(fault)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("a rhythm that is not drawn");
  }

  @Test
  void nothingAskedForIsNothingMade() {
    assertThat(AtOnce.made(List.of())).isEmpty();
  }
}
