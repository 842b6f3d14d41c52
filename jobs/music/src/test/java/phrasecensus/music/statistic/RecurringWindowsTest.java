package phrasecensus.music.statistic;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import phrasecensus.music.pattern.IntervalPatterns;

class RecurringWindowsTest {
  @Test
  void countsAgreeWithTheIndexOfPatterns() {
    for (long seed = 0; seed < 200; seed++) {
      Random random = new Random(seed);
      List<int[]> runs = new ArrayList<>();
      for (int i = random.nextInt(12); i > 0; i--) {
        runs.add(random.ints(random.nextInt(20), -2, 3).toArray());
      }
      IntervalPatterns patterns = IntervalPatterns.byPitch(runs, RecurringWindows.LENGTH);
      IntervalPatterns varied = patterns.withoutRunsAndRepetitions();

      assertThat(RecurringWindows.of(runs, true))
          .as("seed %s", seed)
          .isEqualTo(new RecurringWindows(patterns.windows(), patterns.recurringWindows()));
      assertThat(RecurringWindows.of(runs, false))
          .as("seed %s", seed)
          .isEqualTo(new RecurringWindows(varied.windows(), varied.recurringWindows()));
    }
  }

  @Test
  void intervalsOfManyOctavesAreKeptApart() {
    List<int[]> runs = List.of(new int[] {0, 0, 0, 128}, new int[] {0, 0, 0, -128});

    assertThat(RecurringWindows.of(runs, true)).isEqualTo(new RecurringWindows(2, 0));
  }
}
