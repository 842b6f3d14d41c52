package phrasecensus.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import phrasecensus.spark.StudyFolder;
import phrasecensus.spark.StudyRunner;
import phrasecensus.spark.StudySession;
import phrasecensus.tables.DataSource;
import phrasecensus.tables.FileAddress;
import phrasecensus.tables.InputException;
import phrasecensus.tables.StudyDefinition;
import phrasecensus.tables.verify.ExpectedResults;
import phrasecensus.tables.verify.Verification;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code verify}: a study made anew and held against the results that its author published. */
@Command(
    name = "verify",
    description =
        "Makes a study anew, in a temporary folder, and compares inputs, counts, digests of tables"
            + " and single results with those its study file expects. Ends with 5 on a difference.",
    mixinStandardHelpOptions = true,
    footer = {"", "Example:", "  phrase-census verify sample-corpus/study.yaml"})
final class VerifyCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(
      paramLabel = "STUDY.yaml",
      description = "A study file that names its expected results: 'expected: FILE'.")
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
