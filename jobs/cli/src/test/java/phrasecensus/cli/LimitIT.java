package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import phrasecensus.store.StudyFolder;

/** Limits as settings: of the command line, of a study file, and as a study records them. */
class LimitIT {
  @TempDir private Path temporary;
  private Path corpus;
  private Path into;

  @BeforeEach
  void copyTwoSolos() throws IOException {
    corpus = SampleCorpus.firstSolos(temporary.resolve("corpus"), 2);
    Files.write(corpus.resolve("long.musicxml"), new byte[600_000]);
    into = temporary.resolve("study");
  }

  private CommandRun read(Object input, String... options) {
    List<String> all =
        new java.util.ArrayList<>(List.of("read", input.toString(), "--into", into.toString()));
    all.addAll(List.of(options));
    return CommandRun.of(all.toArray(String[]::new));
  }

  private Map<String, String> recorded() {
    try (StudyFolder folder = StudyFolder.finished(into.toString(), StudyFolder.configuration())) {
      return folder.manifest().settings();
    }
  }

  @Test
  void aLimitOfTheCommandLineRefusesFilesBeforeTheyAreOpenedAndIsRecorded() {
    CommandRun run = read(corpus, "--limit", "file-size=500000");

    assertThat(run.out()).contains("Read 2 of 3 files");
    assertThat(run.err())
        .contains("long.musicxml: The file has 600000 bytes; the limit file-size is 500000.");
    assertThat(recorded()).containsEntry("limit.file-size", "500000");
  }

  @Test
  void aLimitOfTheStudyFileHoldsAndTheCommandLineStandsAboveIt() throws IOException {
    Path study =
        Files.writeString(
            temporary.resolve("study.yaml"),
            "corpus: corpus\nsettings:\n  limits: {file-size: 500000, element-count: 2000000}\n");

    assertThat(read(study).err()).contains("the limit file-size is 500000.");
    assertThat(recorded())
        .containsEntry("limit.file-size", "500000")
        .containsEntry("limit.element-count", "2000000");

    assertThat(read(study, "--limit", "file-size=700000").err()).doesNotContain("file-size");
    assertThat(recorded()).containsEntry("limit.file-size", "700000");
  }

  @Test
  void aLimitAtItsDefaultIsNotRecorded() {
    read(corpus, "--limit", "nesting-depth=100");

    assertThat(recorded().keySet()).isNotEmpty().noneMatch(name -> name.startsWith("limit."));
  }

  @ParameterizedTest
  @ValueSource(strings = {"read", "study"})
  void anUnknownLimitNamesTheLimits(String command) {
    CommandRun run =
        CommandRun.of(
            command, corpus.toString(), "--into", into.toString(), "--limit", "filesize=7");

    assertThat(run.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(run.complaints())
        .containsExactly(
            "Invalid limit 'filesize': the limits are file-size, decompressed-size,"
                + " decompression-ratio, nesting-depth, element-count, unfolded-bars,"
                + " time-parts, reading-time.");
    assertThat(into).doesNotExist();
  }

  @Test
  void anUnknownLimitOfTheStudyFileNamesTheLimits() throws IOException {
    Path study =
        Files.writeString(
            temporary.resolve("study.yaml"), "corpus: corpus\nsettings: {limits: {bytes: 7}}\n");

    CommandRun run = read(study);

    assertThat(run.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(run.complaints()).singleElement().asString().contains("'bytes'", "file-size");
  }

  @ParameterizedTest(name = "--limit {0}")
  @CsvSource({
    "file-size=1000, file-size of 1000 bytes",
    "nesting-depth=3, nesting-depth of 3 elements",
    "element-count=50, element-count of 50 elements"
  })
  void inspectRefusesAFileBeyondALimitByItsName(String limit, String said) {
    CommandRun run = CommandRun.of("inspect", SampleCorpus.A_SOLO.toString(), "--limit", limit);

    assertThat(run.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(run.err()).contains("It is beyond the limit " + said);
  }

  @ParameterizedTest(name = "--limit {0}")
  @CsvSource({
    "reading-time=soon, 'soon' is no whole number of milliseconds above zero",
    "reading-time=0, '0' is no whole number of milliseconds above zero",
    "time=1, the limits are file-size"
  })
  void inspectRefusesALimitThatCannotBe(String limit, String said) {
    CommandRun run = CommandRun.of("inspect", SampleCorpus.A_SOLO.toString(), "--limit", limit);

    assertThat(run.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(run.err().lines()).singleElement().asString().contains(said).endsWith(".");
  }

  @Test
  void aLimitWithoutItsValueIsAUsageError() {
    CommandRun run =
        CommandRun.of("inspect", SampleCorpus.A_SOLO.toString(), "--limit", "file-size");

    assertThat(run.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(run.err()).contains("Write option '--limit' as NAME=VALUE, not 'file-size'.");
  }
}
