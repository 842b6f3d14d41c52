package phrasecensus.cli;

import java.io.PrintWriter;
import java.util.concurrent.Callable;
import phrasecensus.spark.StudyRunner;
import phrasecensus.spark.StudySession;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.StudyDefinition;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** {@code read}: the tables of reading, without norms. */
@Command(
    name = "read",
    description = "Reads the scores into tables; norms and report are left to later steps.",
    mixinStandardHelpOptions = true,
    footer = {"", "Example:", "  phrase-census read my-solos --into my-study"})
final class ReadCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private StudyOptions options;
  @Mixin private ReadingOptions reading;

  @Override
  @SuppressWarnings("try") // the watch over the process is there to be closed
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    PrintWriter err = spec.commandLine().getErr();
    StudyDefinition study = options.definition();
    try (StudySession session = HeadStart.session();
        StudyFolder folder = StudyFolder.forWriting(study.into(), session.configuration());
        Interruption watched = Interruption.of(folder, err)) {
      StudyRunner.Outcome outcome = reading.runner(session, err).read(study, folder);
      Steps.printRemarksAndReport(folder, err);
      Steps.printCounts(outcome, out, err, Main.isDebugging(spec));
      out.println("Tables: " + folder.tablesLocation());
      return reading.exitCode(outcome);
    }
  }
}
