package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class PlanIT {
  private static CommandRun plan(String... options) {
    List<String> arguments = new ArrayList<>(List.of("plan", SampleStudy.folder().toString()));
    arguments.addAll(List.of(options));
    return CommandRun.of(arguments.toArray(String[]::new));
  }

  /** The cells of the table whose head begins so, without the head. */
  private static List<List<String>> table(String out, String head) {
    return out.lines()
        .dropWhile(line -> !line.startsWith(head))
        .skip(2)
        .takeWhile(line -> line.startsWith("|"))
        .map(line -> List.of(line.substring(2, line.length() - 2).split(" \\| ")))
        .toList();
  }

  private static int solos(String cell) {
    return cell.equals("none up to 200") ? 201 : Integer.parseInt(cell);
  }

  @Test
  void everyHeadlineHasItsChancesWhichGrowWithSolos() {
    CommandRun run = plan("--group", "quayside swing");

    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    List<List<String>> rows = table(run.out(), "| figure | corpus solos |");
    assertThat(rows).hasSize(6);
    for (List<String> row : rows) {
      assertThat(row.subList(1, 3)).containsExactly("20", "6");
      assertThat(row.subList(3, 8)).isSorted();
      // What is needed is the first number of solos with a chance of .8.
      assertThat(Double.parseDouble(row.get(3)) >= .8).isEqualTo(solos(row.get(8)) == 1);
      assertThat(Double.parseDouble(row.get(7)) >= .8).isEqualTo(solos(row.get(8)) <= 10);
    }
    assertThat(run.out()).contains("Such a difference is found four times in five with ");
  }

  @Test
  void aLargerCorpusNeverAsksForMoreSolosOfAStudent() {
    List<List<String>> rows =
        table(plan("--group", "quayside swing", "--size", "1.6").out(), "| figure | as it is |");

    assertThat(rows).hasSize(6);
    for (List<String> row : rows) {
      assertThat(solos(row.get(2))).isLessThanOrEqualTo(solos(row.get(1)));
      assertThat(solos(row.get(3))).isLessThanOrEqualTo(solos(row.get(1)));
    }
    assertThat(rows).anyMatch(row -> solos(row.get(3)) < solos(row.get(1)));
  }

  @Test
  void whatCannotBePlannedIsSaid() {
    assertThat(plan("--group", "no such style").complaints())
        .containsExactly(
            "Cannot plan beside the group 'no such style': no solo is in it. Groups of 'style'"
                + " stand in the report.");
    assertThat(plan("--size", "0").complaints())
        .containsExactly("Invalid size: 0.0. Give a number above 0, at most 20.");
    assertThat(plan("--tests", "0").complaints())
        .containsExactly("Invalid number of tests: 0. Give 1 to 1000.");
  }
}
