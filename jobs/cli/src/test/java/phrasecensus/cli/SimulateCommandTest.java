package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

class SimulateCommandTest {
  @Test
  void everyRowOfATableHasAsManyCellsAsItsHead() {
    CommandRun run = CommandRun.of("simulate", "--rounds", "1");

    assertThat(run.exitCode()).isEqualTo(ExitCode.DONE);
    int cells = 0;
    List<String> lines = run.out().lines().toList();
    for (String line : lines) {
      int own = (int) line.chars().filter(letter -> letter == '|').count();
      if (line.startsWith("| setting")) {
        cells = own;
      } else if (line.startsWith("|")) {
        assertThat(own).as(line).isEqualTo(cells);
      }
    }
    assertThat(lines)
        .anyMatch(line -> line.startsWith("| 12 solos of 4 players, ICC 0.17"))
        .anyMatch(line -> line.contains("power after adjustment, a statistic"))
        .last()
        .isEqualTo("1 rounds, seed 5");
  }

  /** Of one round every share is 0 or 1, so every interval and every test is off. */
  @Test
  void everyFigureOutsideItsRangeHasAReason() {
    String out = CommandRun.of("simulate", "--rounds", "1").out();

    List<String> marks =
        out.lines()
            .filter(line -> line.matches("[a-z]: .+\\."))
            .map(line -> line.substring(0, 1))
            .toList();
    assertThat(marks).isNotEmpty().doesNotHaveDuplicates();
    assertThat(
            Pattern.compile("\\d\\.\\d{3} ([a-z]) \\|")
                .matcher(out)
                .results()
                .map(found -> found.group(1))
                .distinct())
        .containsExactlyInAnyOrderElementsOf(marks);
  }

  @Test
  void noRoundsAreRefused() {
    CommandRun run = CommandRun.of("simulate", "--rounds", "0");

    assertThat(run.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(run.complaints()).containsExactly("Invalid number of rounds: 0. Give 1 or more.");
  }
}
