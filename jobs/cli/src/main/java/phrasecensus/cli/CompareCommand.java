package phrasecensus.cli;

import java.util.concurrent.Callable;
import phrasecensus.spark.StudyRunner;
import phrasecensus.spark.StudySession;
import phrasecensus.store.StudyFolder;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code compare}: students held against finished norms. */
@Command(
    name = "compare",
    description = "Holds students' solos against the norms of a finished study.",
    mixinStandardHelpOptions = true,
    footer = {"", "Example:", "  phrase-census compare my-study --students new-solos"})
final class CompareCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "FOLDER", description = "A study folder.")
  private String location;

  @Option(
      names = "--students",
      paramLabel = "FOLDER",
      description =
          "Students' solos, read anew in place of those in the study; default: those in it.")
  private String students;

  @Override
  @SuppressWarnings("try") // the watch over the process is there to be closed
  public Integer call() {
    try (StudySession session = students == null ? StudySession.open() : HeadStart.session();
        StudyFolder folder = StudyFolder.finished(location, session.configuration());
        Interruption watched = Interruption.of(folder, spec.commandLine().getErr())) {
      StudyRunner runner =
          new StudyRunner(session, spec.commandLine().getErr()::println)
              .telling(new ReadingProgress(spec.commandLine().getErr()));
      if (students == null) {
        runner.compare(folder);
      } else {
        StudyRunner.Outcome outcome = runner.compareWith(folder, students);
        Steps.printCounts(
            outcome,
            spec.commandLine().getOut(),
            spec.commandLine().getErr(),
            Main.isDebugging(spec));
      }
      Steps.printRemarksAndReport(folder, spec.commandLine().getErr());
      spec.commandLine().getOut().println("Departures: " + folder.tablesLocation() + "/departures");
      return ExitCode.DONE;
    }
  }
}
