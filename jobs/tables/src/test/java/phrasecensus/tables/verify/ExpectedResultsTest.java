package phrasecensus.tables.verify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.tables.InputException;

class ExpectedResultsTest {
  private static final String RESULT =
      """
      results:
        - {table: norms, row: {statistic: notes_per_bar}, column: p50, expected: 4, tolerance: 0.1}
      """;

  @TempDir private Path folder;

  private Path file(String text) throws IOException {
    return Files.writeString(folder.resolve("results.yaml"), text);
  }

  @Test
  void whatIsWrittenIsReadAgain() throws IOException {
    ExpectedResults expected =
        new ExpectedResults(
            Map.of("solos", 3L),
            Map.of("chords", "ab12"),
            List.of(
                new ExpectedResults.Result(
                    "norms", Map.of("statistic", "notes_per_bar"), "p50", 1.0 / 3, 1e-6),
                new ExpectedResults.Result("norms", Map.of("statistic", "npvi"), "p50", null, 0)),
            Map.of("corpus/say \"so\": yes.xml", "cd34"));

    ExpectedResults read = ExpectedResults.read(file(expected.yaml("study.yaml")));

    assertThat(read.counts()).isEqualTo(expected.counts());
    assertThat(read.tables()).isEqualTo(expected.tables());
    assertThat(read.inputs()).isEqualTo(expected.inputs());
    assertThat(read.results().get(0).expected()).isEqualTo(0.333333333333333);
    assertThat(read.results().get(1)).isEqualTo(expected.results().get(1));
  }

  /** Each is one sentence about the file and what is wrong in it. */
  @ParameterizedTest(name = "{0} for {1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "expected: about four   | expected: 4    | 'expected' of result 1 is 'about four', not a"
            + " number.",
        "tolerance: wide        | tolerance: 0.1 | 'tolerance' of result 1 is 'wide', not a"
            + " number.",
        "tolerance: -1          | tolerance: 0.1 | 'tolerance' of result 1 is negative.",
        "column: verdict        | column: p50    | result 1: Invalid column: verdict is not in"
            + " table norms.",
        "column: group_by       | column: p50    | result 1: Invalid column: norms.group_by holds"
            + " no numbers.",
        "table: normes          | table: norms   | result 1: Invalid table: normes.",
        "colum: p50             | column: p50    | unknown key 'colum'. Did you mean 'column'?",
      })
  void whatCannotBeUsedIsNamed(String wrong, String right, String said) throws IOException {
    Path file = file(RESULT.replace(right, wrong));

    assertThatThrownBy(() -> ExpectedResults.read(file))
        .isInstanceOf(InputException.class)
        .hasMessage("Cannot use the expected results " + file + ": " + said);
  }

  @Test
  void aCountThatIsNoWholeNumberIsNamed() throws IOException {
    Path file = file("counts: {solos: many}\n");

    assertThatThrownBy(() -> ExpectedResults.read(file))
        .isInstanceOf(InputException.class)
        .hasMessageEndingWith("the count 'solos' is 'many', not a whole number.");
  }

  @Test
  void brokenYamlIsToldWithItsLine() throws IOException {
    Path file = file("counts: {solos: 3}\nresults: [\n");

    assertThatThrownBy(() -> ExpectedResults.read(file))
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith("Cannot read the expected results " + file + ", line ");
  }

  @Test
  void aMissingFileSaysHowToWriteIt() {
    assertThatThrownBy(() -> ExpectedResults.read(folder.resolve("none.yaml")))
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith("Cannot find the expected results ")
        .hasMessageEndingWith("--write-expected'.");
  }
}
