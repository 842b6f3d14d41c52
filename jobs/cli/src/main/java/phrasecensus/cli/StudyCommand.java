package phrasecensus.cli;

import java.io.PrintWriter;
import java.util.concurrent.Callable;
import phrasecensus.spark.StudyRunner;
import phrasecensus.spark.StudySession;
import phrasecensus.store.ReportPages;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.StudyDefinition;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code study}: everything a study asks for. */
@Command(
    name = "study",
    description = "Reads, makes norms, compares and writes the report.",
    mixinStandardHelpOptions = true,
    footer = {
      "",
      "Example:",
      "  phrase-census study my-solos --students my-students --by style --into my-study"
    })
final class StudyCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private StudyOptions options;
  @Mixin private ReadingOptions reading;
  @Mixin private ReportOptions report;

  @Option(
      names = "--patterns",
      description =
          "Also index recurring figures, and show in the report those that solos share and those"
              + " that a student comes back to.")
  private boolean patterns;

  @Override
  @SuppressWarnings("try") // the watch over the process is there to be closed
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    PrintWriter err = spec.commandLine().getErr();
    StudyDefinition study = patterns ? options.definition().withPatterns() : options.definition();
    report.locale(); // A wrong one is told before the work, not after it.
    try (StudySession session = HeadStart.session();
        StudyFolder folder = StudyFolder.forWriting(study.into(), session.configuration());
        Interruption watched = Interruption.of(folder, err)) {
      ReportPages pages = Steps.pages(report);
      StudyRunner.Outcome outcome =
          reading
              .runner(session, err)
              .study(
                  study,
                  folder,
                  (tables, manifest, into) -> {
                    err.println("Writing the report");
                    pages.write(tables, manifest, into);
                  });
      Steps.printRemarks(folder, err);
      Steps.printCounts(outcome, out, err, Main.isDebugging(spec));
      out.println("Tables: " + folder.tablesLocation());
      out.println("Report: " + folder.reportLocation() + "/index.html");
      return reading.exitCode(outcome);
    }
  }
}
