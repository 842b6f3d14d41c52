package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Studies made anew and held against what their authors published. With {@code
 * -Dgolden.update=true} the expected results in the project are written instead; look at the
 * difference before it is committed.
 */
class VerifyIT {
  private static final Path STUDIES = SampleCorpus.FOLDER.resolve("studies");

  @TempDir private Path temporary;

  private static CommandRun verify(Object studyFile, String... options) {
    String[] arguments = new String[options.length + 2];
    arguments[0] = "verify";
    arguments[1] = studyFile.toString();
    System.arraycopy(options, 0, arguments, 2, options.length);
    return CommandRun.of(arguments);
  }

  private static void assertHolds(Path studyFile, String... options) {
    if (Boolean.getBoolean("golden.update")) {
      String[] writing = java.util.Arrays.copyOf(options, options.length + 1);
      writing[options.length] = "--write-expected";
      assertThat(verify(studyFile, writing).exitCode()).isEqualTo(ExitCode.DONE);
    }

    CommandRun run = verify(studyFile, options);

    assertThat(run.exitCode())
        .as(
            "other results than expected; when that is meant, run\n"
                + "jobs/phrase-census verify "
                + studyFile
                + " "
                + String.join(" ", options)
                + " --write-expected\n"
                + run.out()
                + run.err())
        .isEqualTo(ExitCode.DONE);
    assertThat(run.out()).matches("(?s).*\\nAll \\d+ checks hold\\.\\R");
  }

  @Test
  void theSampleStudyGivesWhatIsExpected() {
    assertHolds(SampleCorpus.STUDY_FILE);
  }

  @Test
  void thePublishedStudyGivesWhatIsExpected() {
    Path data = Path.of(System.getProperty("project.root"), "../shared/data/solos/xml").normalize();
    Assumptions.assumeTrue(Files.isDirectory(data), "No ../shared beside the checkout");

    assertHolds(STUDIES.resolve("weimar-development-half.yaml"), "--corpus", data.toString());
  }

  /** A study of eight solos with expected results; the path of its file. */
  private Path smallStudy() throws IOException {
    SampleCorpus.firstSolos(temporary.resolve("corpus"), 8);
    Path study = temporary.resolve("study.yaml");
    Files.writeString(study, "corpus: corpus\nexpected: expected.yaml\n");
    CommandRun written = verify(study, "--write-expected");
    assertThat(written.exitCode()).as(written.err()).isEqualTo(ExitCode.DONE);
    return study;
  }

  @Test
  void oneChangedByteOfOneInputIsFoundAndNamed() throws IOException {
    Path study = smallStudy();
    Path expected = temporary.resolve("expected.yaml");
    byte[] written = Files.readAllBytes(expected);
    Path solo = temporary.resolve("corpus/barnacle-arithmetic-quill-headland.musicxml");
    byte[] bytes = Files.readAllBytes(solo);
    int place = new String(bytes, StandardCharsets.ISO_8859_1).indexOf("\n<part ");
    assertThat(place).isPositive();
    bytes[place] = '\t';
    Files.write(solo, bytes);

    CommandRun run = verify(study);

    assertThat(run.exitCode()).isEqualTo(ExitCode.OTHER_RESULTS);
    List<String> misses = run.out().lines().filter(line -> line.startsWith("MISS")).toList();
    // The byte is white space: the music is the same, and the checksums tell all the same.
    assertThat(misses).hasSize(3);
    assertThat(misses.get(0)).contains("inputs with the same bytes");
    assertThat(misses.get(1)).contains("input corpus/barnacle-arithmetic-quill-headland.musicxml");
    assertThat(misses.get(2)).contains("digest of files");
    assertThat(run.out()).endsWith("3 of " + checks(run) + " checks do not hold.\n");
    assertThat(expected).hasBinaryContent(written);

    bytes[place] = '\n';
    Files.write(solo, bytes);
    assertThat(verify(study).exitCode()).isEqualTo(ExitCode.DONE);
  }

  /** Lines that are a check: all but the header and the last. */
  private static long checks(CommandRun run) {
    return run.out()
        .lines()
        .filter(line -> line.startsWith("MISS") || line.startsWith("ok"))
        .count();
  }

  @Test
  void aResultOutsideItsToleranceIsAMiss() throws IOException {
    Path study = smallStudy();
    Path expected = temporary.resolve("expected.yaml");
    String text = Files.readString(expected);
    Files.writeString(expected, text.replaceFirst("expected: [0-9.]+\\n", "expected: 123\n"));

    CommandRun run = verify(study);

    assertThat(run.exitCode()).isEqualTo(ExitCode.OTHER_RESULTS);
    assertThat(run.out().lines().filter(line -> line.startsWith("MISS")))
        .singleElement()
        .asString()
        .contains("norms.p50 of all, all, ", " 123 ", " 0.001");
  }

  @Test
  void anExpectedValueThatIsNoNumberIsRefusedBeforeTheRun() throws IOException {
    Path study = temporary.resolve("study.yaml");
    Files.writeString(study, "corpus: corpus\nexpected: expected.yaml\n");
    Files.writeString(
        temporary.resolve("expected.yaml"),
        """
        results:
          - {table: norms, row: {statistic: npvi}, column: p50, expected: four, tolerance: 0}
        """);

    CommandRun run = verify(study);

    assertThat(run.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(run.err())
        .isEqualToIgnoringNewLines(
            "Cannot use the expected results "
                + temporary.resolve("expected.yaml")
                + ": 'expected' of result 1 is 'four', not a number.");
  }

  @Test
  void dataThatAreNotHereAreSaidWhereToGet() {
    Path study = STUDIES.resolve("weimar-development-half.yaml");

    CommandRun run = verify(study);

    assertThat(run.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(run.complaints())
        .singleElement()
        .asString()
        .startsWith("Cannot verify " + study + ": its data are not in ")
        .contains("Get 'Weimar Jazz Database, 220 solos", "' (ODbL-1.0) from https://")
        .endsWith(", and name the folder that has it with --corpus.");
  }

  /** A file of the system, such as a list of its users, is no file of expected results. */
  @ParameterizedTest
  @ValueSource(strings = {"study", "verify"})
  void aForeignFileAsExpectedResultsIsRefusedByEitherCommand(String command) throws IOException {
    Path foreign =
        Files.writeString(
            temporary.resolve("users-" + command),
            "root:x:0:0:root:/root:/bin/sh\nada:x:1:1::/:\n");
    Path study =
        Files.writeString(
            temporary.resolve(command + ".yaml"),
            "corpus: " + SampleCorpus.FOLDER.resolve("corpus") + "\nexpected: " + foreign + "\n");
    Path into = temporary.resolve("not-made");

    CommandRun run =
        command.equals("verify")
            ? CommandRun.of(command, study.toString())
            : CommandRun.of(command, study.toString(), "--into", into.toString());

    assertThat(run.exitCode()).as(run.out()).isEqualTo(ExitCode.INPUT);
    assertThat(run.complaints()).singleElement().asString().contains("expected results " + foreign);
    assertThat(into).doesNotExist();
  }

  @Test
  void aStudyWithoutExpectedResultsIsNotVerified() throws IOException {
    Path study = Files.writeString(temporary.resolve("study.yaml"), "corpus: corpus\n");

    CommandRun run = verify(study);

    assertThat(run.exitCode()).isEqualTo(ExitCode.INPUT);
    assertThat(run.complaints())
        .singleElement()
        .asString()
        .startsWith("Cannot verify " + study + ": it names no expected results.");
  }

  @Test
  void aFinishedStudyIsHeldAgainstWhatWasWritten() {
    CommandRun run = verify(SampleStudy.folder());

    assertThat(run.exitCode()).as(run.out()).isEqualTo(ExitCode.DONE);
    assertThat(run.out()).matches("All \\d+ files are as they were written\\.\\R");
  }

  @Test
  void aChangedByteOfAnExportIsFoundAndNamed() throws IOException {
    Path export = temporary.resolve("export");
    assertThat(
            CommandRun.of("export", SampleStudy.folder().toString(), "--into", export.toString())
                .exitCode())
        .isEqualTo(ExitCode.DONE);
    assertThat(verify(export).exitCode()).isEqualTo(ExitCode.DONE);
    Path table = export.resolve("csv/norms.csv");
    byte[] bytes = Files.readAllBytes(table);
    bytes[bytes.length / 2] ^= 1;
    Files.write(table, bytes);
    Files.delete(export.resolve("METHODS.md"));

    CommandRun run = verify(export);

    assertThat(run.exitCode()).isEqualTo(ExitCode.OTHER_RESULTS);
    assertThat(run.out().lines())
        .containsExactly(
            "METHODS.md is gone.",
            "csv/norms.csv is not as it was written, or was added.",
            "Differences from what was written: 2.");
  }

  @Test
  void optionsOfAStudyFileDoNotGoWithAFolder() {
    CommandRun run = verify(temporary, "--write-expected");

    assertThat(run.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(run.err()).contains("go with a study file, not a folder");
  }
}
