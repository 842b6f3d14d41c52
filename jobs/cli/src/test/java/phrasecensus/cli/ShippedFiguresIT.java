package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import org.junit.jupiter.api.Test;
import phrasecensus.music.comparison.ShippedFigures;
import phrasecensus.music.comparison.ShippedTable;

/**
 * Makes the shipped figures anew from the 220 solos that they were made of, and holds those that
 * come with the program against them: whoever changes what a compared statistic means must make
 * them anew, by the commands that {@code shipped.csv} names.
 */
class ShippedFiguresIT {
  private static final double TOLERANCE = 1e-9;

  @Test
  void figuresThatComeAlongAreThoseOfTheCommand() throws IOException {
    CommandRun run = CommandRun.of("shipped-figures", RealSolosStudy.folder().toString());
    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    ShippedTable made = ShippedTable.parse(run.out());

    assertThat(made.all()).hasSameSizeAs(ShippedTable.builtIn().all());
    for (ShippedFigures figures : ShippedTable.builtIn().all()) {
      ShippedFigures anew = made.of(figures.statistic()).orElseThrow();
      double[] expected = numbers(figures);
      double[] found = numbers(anew);
      for (int i = 0; i < expected.length; i++) {
        assertThat(found[i])
            .as(figures.statistic() + " " + i)
            .isCloseTo(expected[i], within(TOLERANCE * Math.max(1, Math.abs(expected[i]))));
      }
    }
  }

  private static double[] numbers(ShippedFigures figures) {
    return new double[] {
      figures.noise(),
      figures.correlationMean(),
      figures.tempo().slopes().first(),
      figures.tempo().slopes().second(),
      figures.tempo().uu(),
      figures.tempo().uq(),
      figures.tempo().qq(),
      figures.tempoScale().low(),
      figures.tempoScale().high(),
      figures.phrasesForHalf()
    };
  }
}
