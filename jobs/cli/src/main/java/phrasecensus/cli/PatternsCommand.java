package phrasecensus.cli;

import java.util.concurrent.Callable;
import phrasecensus.spark.StudyRunner;
import phrasecensus.spark.StudySession;
import phrasecensus.store.StudyFolder;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code patterns}: the index of interval patterns from tables written earlier. */
@Command(
    name = "patterns",
    description =
        "Makes an index of interval patterns from a study's tables: figures of three to eight"
            + " intervals that solos repeat and that the solos of a group share, at any pitch, with"
            + " and without rhythm.",
    mixinStandardHelpOptions = true,
    footer = {"", "Example:", "  phrase-census patterns my-study"})
final class PatternsCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "FOLDER", description = "A study folder.")
  private String location;

  @Override
  public Integer call() {
    try (StudySession session = StudySession.open();
        StudyFolder folder = StudyFolder.finished(location, session.configuration())) {
      new StudyRunner(session, spec.commandLine().getErr()::println).patterns(folder);
      Steps.printRemarksAndReport(folder, spec.commandLine().getErr());
      spec.commandLine().getOut().println("Patterns: " + folder.tablesLocation() + "/patterns");
      return ExitCode.DONE;
    }
  }
}
