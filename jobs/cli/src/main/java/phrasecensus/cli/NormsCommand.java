package phrasecensus.cli;

import java.util.List;
import java.util.concurrent.Callable;
import phrasecensus.spark.StudyRunner;
import phrasecensus.spark.StudySession;
import phrasecensus.store.StudyFolder;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code norms}: norms and comparison anew from tables written earlier. */
@Command(
    name = "norms",
    description = "Makes the norms, and the comparison with them, anew from a study's tables.",
    mixinStandardHelpOptions = true,
    footer = {"", "Example:", "  phrase-census norms my-study --by style,instrument"})
final class NormsCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "FOLDER", description = "A study folder.")
  private String location;

  @Option(
      names = "--by",
      paramLabel = "COLUMN",
      split = ",",
      description = "Metadata columns that group the norms; default: those of the study.")
  private List<String> by;

  @Override
  @SuppressWarnings("try") // the watch over the process is there to be closed
  public Integer call() {
    try (StudySession session = StudySession.open();
        StudyFolder folder = StudyFolder.finished(location, session.configuration());
        Interruption watched = Interruption.of(folder, spec.commandLine().getErr())) {
      List<String> columns =
          by == null ? folder.manifest().by() : by.stream().map(String::strip).toList();
      new StudyRunner(session, spec.commandLine().getErr()::println).norms(folder, columns);
      Steps.printRemarksAndReport(folder, spec.commandLine().getErr());
      spec.commandLine().getOut().println("Norms: " + folder.tablesLocation() + "/norms");
      return ExitCode.DONE;
    }
  }
}
