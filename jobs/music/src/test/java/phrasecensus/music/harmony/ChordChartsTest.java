package phrasecensus.music.harmony;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import phrasecensus.music.harmony.ChordCharts.Chart;
import phrasecensus.music.harmony.ChorusFinder.Choruses;

/**
 * Centre and chorus of charts made up from common progressions (common practice, no source): one
 * file written before the rules of the centre were last changed, one after they were settled.
 */
class ChordChartsTest {
  @ParameterizedTest
  @ValueSource(strings = {"charts-before.txt", "charts-after.txt"})
  void centresAreWhatATeacherWouldSay(String file) {
    List<Chart> charts = ChordCharts.read(file);
    int tonics = 0;
    int both = 0;
    StringBuilder misses = new StringBuilder();
    for (Chart chart : charts) {
      TonalCentre centre = TonalCentreFinder.find(chart.solo(), Optional.empty()).whole();
      tonics += chart.isTonic(centre) ? 1 : 0;
      both += chart.isTonicAndMode(centre) ? 1 : 0;
      if (!chart.isTonicAndMode(centre)) {
        misses.append(
            String.format(
                Locale.ROOT,
                "%n  %s: %d %s, found %d %s",
                chart.name(),
                chart.tonic(),
                chart.modes(),
                centre.tonic(),
                centre.mode()));
      }
    }
    String report =
        String.format(
            Locale.ROOT,
            "%s: of %d charts tonic %d (%.3f), tonic and mode %d (%.3f)%s",
            file,
            charts.size(),
            tonics,
            tonics / (double) charts.size(),
            both,
            both / (double) charts.size(),
            misses);
    System.out.println(report);

    assertThat(tonics).as(report).isGreaterThanOrEqualTo((int) Math.ceil(.95 * charts.size()));
    assertThat(both).as(report).isGreaterThanOrEqualTo((int) Math.ceil(.95 * charts.size()));
  }

  /** A chorus that is found has the right length; one that is heard once need not be found. */
  @ParameterizedTest
  @ValueSource(strings = {"charts-before.txt", "charts-after.txt"})
  void chorusesAreNeitherHalvedNorDoubled(String file) {
    StringBuilder misses = new StringBuilder();
    for (Chart chart : ChordCharts.read(file)) {
      Optional<Choruses> choruses = ChorusFinder.find(chart.solo());
      boolean needed = chart.bars() >= 2 * chart.chorus();
      if (choruses.map(found -> found.bars() != chart.chorus()).orElse(needed)) {
        misses.append(
            String.format(
                Locale.ROOT,
                "%n  %s: %d bars, found %s",
                chart.name(),
                chart.chorus(),
                choruses.map(found -> found.bars() + " " + found.source()).orElse("none")));
      }
    }

    assertThat(misses.toString()).isEmpty();
  }
}
