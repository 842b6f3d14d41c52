package phrasecensus.report.rows;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class InOrderTest {
  private record Stretch(int number, double onset, double end) {}

  private static final List<Stretch> ALL =
      IntStream.range(0, 40).mapToObj(i -> new Stretch(3 * i, 2 * i, 2 * i + 1.5)).toList();

  @Test
  void stretchesAreThoseThatGoingThroughAllWouldFind() {
    for (double from = -3; from < 85; from += 0.25) {
      for (double to = from + 0.125; to < 85; to += 3.5) {
        double begin = from;
        double stop = to;
        assertThat(InOrder.beginning(ALL, Stretch::onset, from, to))
            .containsAll(
                ALL.stream().filter(each -> each.onset() >= begin && each.onset() < stop).toList())
            .allMatch(each -> each.onset() > begin - 0.01 && each.onset() < stop + 0.01);
        assertThat(InOrder.touching(ALL, Stretch::onset, Stretch::end, from, to))
            .containsAll(
                ALL.stream().filter(each -> each.end() > begin && each.onset() < stop).toList())
            .allMatch(each -> each.end() > begin - 0.01 && each.onset() < stop + 0.01);
      }
    }
  }

  @Test
  void numbersAreCountedInAtBothEnds() {
    assertThat(InOrder.numbered(ALL, Stretch::number, 3, 9))
        .extracting(Stretch::number)
        .containsExactly(3, 6, 9);
    assertThat(InOrder.numbered(ALL, Stretch::number, 4, 5)).isEmpty();
    assertThat(InOrder.numbered(ALL, Stretch::number, 9, 3)).isEmpty();
    assertThat(InOrder.numbered(List.<Stretch>of(), Stretch::number, 0, 9)).isEmpty();
  }
}
