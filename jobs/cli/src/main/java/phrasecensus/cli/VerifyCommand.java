package phrasecensus.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import phrasecensus.spark.StudyRunner;
import phrasecensus.spark.StudySession;
import phrasecensus.store.StudyFolder;
import phrasecensus.store.StudyVerification;
import phrasecensus.store.export.StudyExport;
import phrasecensus.tables.DataSource;
import phrasecensus.tables.FileAddress;
import phrasecensus.tables.InputException;
import phrasecensus.tables.StudyDefinition;
import phrasecensus.tables.verify.ExpectedResults;
import phrasecensus.tables.verify.Verification;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/**
 * {@code verify}: a finished study held against what was written, or a study made anew and held
 * against the results that its author published.
 */
@Command(
    name = "verify",
    description =
        "Holds a finished study, or an export, against what was written, byte by byte; or makes a"
            + " study anew, in a temporary folder, and compares inputs, counts, digests of tables"
            + " and single results with those its study file expects. Ends with 5 on a difference.",
    mixinStandardHelpOptions = true,
    footer = {
      "",
      "Examples:",
      "  phrase-census verify my-study",
      "  phrase-census verify sample-corpus/study.yaml"
    })
final class VerifyCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(
      paramLabel = "STUDY",
      description =
          "A study folder, an export, or a study file that names its expected results: 'expected:"
              + " FILE'.")
  private String location;

  private Path studyFile;

  @Option(
      names = "--corpus",
      paramLabel = "FOLDER",
      description = "Where the corpus is here, for a study whose data are not beside its file.")
  private String corpus;

  @Option(
      names = "--write-expected",
      description = "Write the file of expected results with the values of this run instead.")
  private boolean writeExpected;

  @Override
  public Integer call() {
    if (!location.matches("(?i).*\\.ya?ml") || Files.isDirectory(Path.of(location))) {
      return verifyFolder();
    }
    studyFile = Path.of(location);
    StudyDefinition study = StudyDefinition.read(studyFile);
    if (study.expected().isEmpty()) {
      throw new InputException(
          "Cannot verify "
              + studyFile
              + ": it names no expected results. Add a line 'expected: FILE' and write them with"
              + " --write-expected.");
    }
    Path file = Path.of(study.expected());
    ExpectedResults expected =
        writeExpected && !Files.exists(file) ? null : ExpectedResults.read(file);
    if (corpus != null) {
      study = study.readFrom(corpus);
    } else {
      checkDataAreHere(study);
    }
    Path temporary = null;
    try {
      temporary = Files.createTempDirectory("phrase-census-verify");
      return verify(study.writtenInto(temporary.resolve("study").toString()), file, expected);
    } catch (IOException e) {
      throw new InputException("Cannot verify " + studyFile + ": " + e.getMessage() + ".", e);
    } finally {
      Steps.delete(temporary);
    }
  }

  private int verifyFolder() {
    if (corpus != null || writeExpected) {
      throw new ParameterException(
          spec.commandLine(), "--corpus and --write-expected go with a study file, not a folder.");
    }
    List<String> differences;
    int files;
    boolean here = !location.matches("[A-Za-z][A-Za-z0-9+.-]+:.*");
    if (here && !Files.isDirectory(Path.of(location))) {
      throw new InputException(
          "Cannot find " + location + ". Name a study folder, an export or a study file (.yaml).");
    }
    if (here && StudyExport.isIn(Path.of(location))) {
      differences = StudyExport.differences(Path.of(location));
      files = StudyExport.files(Path.of(location));
    } else {
      StudyVerification verification = StudyVerification.of(location, StudyFolder.configuration());
      differences = verification.differences();
      files = verification.files();
    }
    PrintWriter out = spec.commandLine().getOut();
    differences.forEach(out::println);
    out.println(
        differences.isEmpty()
            ? "All " + files + " files are as they were written."
            : "Differences from what was written: " + differences.size() + ".");
    return differences.isEmpty() ? ExitCode.DONE : ExitCode.OTHER_RESULTS;
  }

  /** Whoever verifies a published study may have to fetch its data first. */
  private void checkDataAreHere(StudyDefinition study) {
    DataSource data = study.data();
    boolean elsewhere = FileAddress.isOne(study.corpus());
    if (elsewhere || data.address().isEmpty() || Files.exists(Path.of(study.corpus()))) {
      return;
    }
    throw new InputException(
        "Cannot verify "
            + studyFile
            + ": its data are not in "
            + study.corpus()
            + ". Get '"
            + data.name()
            + "'"
            + (data.licence().isEmpty() ? "" : " (" + data.licence() + ")")
            + " from "
            + data.address()
            + ", and name the folder that has it with --corpus.");
  }

  private int verify(StudyDefinition study, Path file, ExpectedResults expected)
      throws IOException {
    PrintWriter out = spec.commandLine().getOut();
    PrintWriter err = spec.commandLine().getErr();
    try (StudySession session = StudySession.open();
        StudyFolder folder = StudyFolder.forWriting(study.into(), session.configuration())) {
      new StudyRunner(session, err::println).study(study, folder).remarks().forEach(err::println);
      if (writeExpected) {
        ExpectedResults written =
            expected == null
                ? ExpectedResults.first(folder.manifest(), folder.source())
                : expected.filled(folder.manifest(), folder.source());
        Files.createDirectories(file.toAbsolutePath().getParent());
        Files.writeString(file, written.yaml(String.valueOf(studyFile.getFileName())));
        out.println("Expected results: " + file);
        return ExitCode.DONE;
      }
      Verification verification = Verification.of(expected, folder.manifest(), folder.source());
      verification.lines().forEach(out::println);
      out.println(
          verification.misses() == 0
              ? "All " + verification.checks().size() + " checks hold."
              : verification.misses()
                  + " of "
                  + verification.checks().size()
                  + " checks do not hold.");
      return verification.misses() == 0 ? ExitCode.DONE : ExitCode.OTHER_RESULTS;
    }
  }
}
