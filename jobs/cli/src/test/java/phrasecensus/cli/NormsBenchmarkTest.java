package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import phrasecensus.tables.InputException;

class NormsBenchmarkTest {
  private static final List<byte[]> CONTENTS =
      List.of(
          "a score".getBytes(StandardCharsets.UTF_8), "another".getBytes(StandardCharsets.UTF_8));

  private final StringWriter out = new StringWriter();
  private final List<List<String>> runs = new ArrayList<>();
  private final List<List<String>> tables = new ArrayList<>();

  private double run(List<String> arguments) throws IOException {
    runs.add(arguments);
    if (arguments.get(0).equals("read")) {
      Path corpus = Path.of(arguments.get(1));
      Path table = corpus.resolve("solos.csv");
      tables.add(Files.exists(table) ? Files.readAllLines(table) : List.of());
      try (Stream<Path> files = Files.list(corpus)) {
        return files.count();
      }
    }
    return runs.size();
  }

  private void measure(byte[] table, Path students) throws IOException {
    new NormsBenchmark(
            new PrintWriter(out, true),
            List.of(Path.of("my/heron.musicxml"), Path.of("my/tide.musicxml")),
            CONTENTS,
            table,
            this::run)
        .run(List.of(3, 5), List.of("style"), students);
  }

  @Test
  void everyCopyOfTheCorpusHasPlayersOfItsOwnAndKeepsTheOtherColumns() throws IOException {
    measure(
        "file,performer,style\nheron.musicxml,\"Reed, Ada\",bop\ntide.musicxml,Bo Lind,swing\n"
            .getBytes(StandardCharsets.UTF_8),
        Path.of("my-students"));

    assertThat(tables.get(0))
        .containsExactly(
            "file,\"performer\",\"style\"",
            "\"000000-heron.musicxml\",\"Reed, Ada 1\",\"bop\"",
            "\"000001-tide.musicxml\",\"Bo Lind 1\",\"swing\"",
            "\"000002-heron.musicxml\",\"Reed, Ada 2\",\"bop\"");
    assertThat(runs).hasSize(4);
    assertThat(runs.get(0)).startsWith("read").endsWith("--students", "my-students");
    assertThat(runs.get(1)).startsWith("norms").endsWith("--by", "style");
    assertThat(out.toString().lines())
        .containsExactly(
            "Norms, contrasts and comparison of 3 solos by 3 players, 2000 resamples, fresh"
                + " process: 2.0 s",
            "Norms, contrasts and comparison of 5 solos by 5 players, 2000 resamples, fresh"
                + " process: 4.0 s, 2.00 times that of 3 solos");
  }

  @Test
  void aCorpusWithoutMetadataHasNoPlayersAndNothingIsLeftBehind() throws IOException {
    measure(null, null);

    assertThat(tables.get(0)).isEmpty();
    assertThat(out.toString()).contains("3 solos by 0 players");
    assertThat(Path.of(runs.get(0).get(1))).doesNotExist();
  }

  /** As where the solos are to be grouped by a column of a table that the folder does not have. */
  @Test
  void whatAProcessRefusesIsSaidAndNoFaultOfTheProgram() {
    assertThatThrownBy(
            () ->
                BenchmarkCommand.requireDone(
                    "norms",
                    ExitCode.INPUT,
                    "Making norms and comparing\nCannot group by 'style': no such column.\n"))
        .isInstanceOf(InputException.class)
        .hasMessage("Cannot measure 'norms', which says: Cannot group by 'style': no such column.");
    assertThatThrownBy(() -> BenchmarkCommand.requireDone("norms", ExitCode.OUR_FAULT, ""))
        .isInstanceOf(IllegalStateException.class);
  }

  @Test
  void noSolosAreRefused() {
    CommandRun run =
        CommandRun.of("benchmark", SampleCorpus.A_SOLO.getParent().toString(), "--norms", "9,0");

    assertThat(run.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(run.complaints()).containsExactly("Invalid number of solos: 0. Give 1 or more.");
  }
}
