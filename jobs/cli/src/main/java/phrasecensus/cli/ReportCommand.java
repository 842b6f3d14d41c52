package phrasecensus.cli;

import java.util.concurrent.Callable;
import phrasecensus.store.StudyFolder;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code report}: the pages anew from the tables of a finished study. */
@Command(
    name = "report",
    description = "Writes the report of a finished study anew.",
    mixinStandardHelpOptions = true,
    footer = {"", "Example:", "  phrase-census report my-study --pseudonyms"})
final class ReportCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "FOLDER", description = "A study folder.")
  private String location;

  @Mixin private ReportOptions options;

  @Override
  public Integer call() {
    try (StudyFolder folder = StudyFolder.finished(location, StudyFolder.configuration())) {
      String page = Steps.report(folder, options);
      Steps.printRemarks(folder, spec.commandLine().getErr());
      spec.commandLine().getOut().println("Report: " + page + "/index.html");
      return ExitCode.DONE;
    }
  }
}
