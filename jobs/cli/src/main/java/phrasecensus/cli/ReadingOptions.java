package phrasecensus.cli;

import java.io.PrintWriter;
import phrasecensus.spark.StudyRunner;
import phrasecensus.spark.StudySession;
import picocli.CommandLine.Option;

/** How a command that reads scores goes about it. */
final class ReadingOptions {
  @Option(names = "--strict", description = "Exit with 4 when a file was rejected.")
  private boolean strict;

  @Option(
      names = "--fresh",
      description =
          "Read every file again; default: those that changed since the study was last made.")
  private boolean fresh;

  /** A runner that tells its steps and its progress. */
  StudyRunner runner(StudySession session, PrintWriter err) {
    StudyRunner runner = new StudyRunner(session, err::println).telling(new ReadingProgress(err));
    return fresh ? runner.fresh() : runner;
  }

  /** How the command ends. */
  int exitCode(StudyRunner.Outcome outcome) {
    return Steps.exitCode(outcome, strict);
  }
}
