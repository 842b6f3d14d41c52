package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.zip.GZIPInputStream;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The comparison held against real players, on data that stand beside the checkout: by a few rounds
 * as a rule, by all of them where {@code acceptance=whole} says so, as {@code .ci/acceptance} does.
 */
class AcceptanceIT {
  private static final boolean WHOLE = "whole".equals(System.getProperty("acceptance"));

  /** Rounds of a player come one after the other: every tenth takes nearly all players. */
  private static final int EVERY = 10;

  private static final Path SHARED =
      Path.of(System.getProperty("project.root"), "../shared").normalize();
  private static final Path DESIGN = SHARED.resolve("reference/comparison/design.csv.gz");
  private static final Path EXPECTED = SHARED.resolve("reference/comparison/acceptance.csv");

  @TempDir private Path temporary;

  /** A figure with its standard error. */
  private record Figure(double value, double error) {}

  private static Map<String, Figure> figures(List<String> lines) {
    Map<String, Figure> figures = new LinkedHashMap<>();
    for (String line : lines.subList(1, lines.size())) {
      // Some measures hold a comma and are quoted.
      String[] cells = line.split(",(?=(?:[^\"]*\"[^\"]*\")*[^\"]*$)");
      figures.put(
          cells[0] + " solos, shift " + cells[1] + ": " + cells[2].replace("\"", ""),
          new Figure(Double.parseDouble(cells[3]), Double.parseDouble(cells[4])));
    }
    return figures;
  }

  /** False alarms may be fewer and power greater than expected, never the other way round. */
  private static boolean isBetter(String measure, double value, double expected) {
    boolean falseAlarm =
        measure.contains("shift 0") || measure.contains("false") || measure.contains("another");
    return falseAlarm ? value < expected : value > expected;
  }

  private static List<String> design() throws IOException {
    try (GZIPInputStream packed =
        new GZIPInputStream(new ByteArrayInputStream(Files.readAllBytes(DESIGN)))) {
      List<String> all = new String(packed.readAllBytes(), StandardCharsets.UTF_8).lines().toList();
      if (WHOLE) {
        return all;
      }
      List<String> ofThree = all.stream().filter(line -> line.startsWith("3,")).toList();
      List<String> some = new ArrayList<>(List.of(all.get(0)));
      for (int i = 0; i < ofThree.size(); i += EVERY) {
        some.add(ofThree.get(i));
      }
      return some;
    }
  }

  @Test
  void everyFigureIsMetAndPowerIsFoundAsPlanned() throws IOException {
    Assumptions.assumeTrue(Files.exists(DESIGN), "No ../shared beside the checkout");
    String study = RealSolosStudy.folder().toString();
    Path design = Files.write(temporary.resolve("design.csv"), design());

    CommandRun run = CommandRun.of("acceptance", study, "--design", design.toString());

    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    Map<String, Figure> found = figures(run.out().lines().toList());
    Map<String, Figure> expected = figures(Files.readAllLines(EXPECTED, StandardCharsets.UTF_8));
    if (!WHOLE) {
      expected.keySet().removeIf(measure -> !measure.startsWith("3 solos"));
    }
    assertThat(expected).hasSize(WHOLE ? 92 : 23);
    expected.forEach(
        (measure, figure) -> {
          double value = found.get(measure).value;
          // Few rounds are less sure than those of the whole design.
          double error = WHOLE ? figure.error : Math.hypot(figure.error, found.get(measure).error);
          assertThat(
                  Math.abs(value - figure.value) <= 2 * error
                      || isBetter(measure, value, figure.value))
              .as("%s: %s where %s +- %s was asked for", measure, value, figure.value, error)
              .isTrue();
        });
    List<String> planned =
        found.keySet().stream().filter(measure -> measure.endsWith(", predicted")).toList();
    assertThat(planned).hasSize(WHOLE ? 8 : 2);
    for (String measure : planned) {
      double value = found.get(measure.substring(0, measure.indexOf(", predicted"))).value;
      assertThat(Math.abs(found.get(measure).value - value)).as(measure).isLessThan(.05);
    }
  }

  @Test
  void aDesignOfOtherSolosIsRefused() throws IOException {
    String header = "k,round,group,player,student,reference,question,shifted\n";
    Path design =
        Files.writeString(
            temporary.resolve("other.csv"),
            header + "1,r1,quayside swing,Ada,corpus/none,corpus/other,harmony,step_share:+1\n");

    CommandRun run =
        CommandRun.of("acceptance", SampleStudy.folder().toString(), "--design", design.toString());

    assertThat(run.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(run.err()).contains("Cannot use the design", "no such solos as its student's");
  }
}
