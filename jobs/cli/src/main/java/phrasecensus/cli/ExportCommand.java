package phrasecensus.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import phrasecensus.store.StudyFolder;
import phrasecensus.store.export.StudyExport;
import phrasecensus.tables.InputException;
import phrasecensus.tables.Manifest;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code export}: a finished study as files that need no program of ours. */
@Command(
    name = "export",
    description =
        "Writes a finished study as a folder that stands alone: every table as CSV and Parquet,"
            + " with a dictionary, a description for machines, notebooks and how to cite it.",
    mixinStandardHelpOptions = true,
    footer = {"", "Example:", "  phrase-census export my-study --into my-study-export"})
final class ExportCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "STUDY", description = "A study folder.")
  private String location;

  @Option(
      names = "--into",
      required = true,
      paramLabel = "FOLDER",
      description =
          "Folder to write, on this machine: a new or empty one, or an earlier export that nobody"
              + " changed.")
  private String into;

  @Override
  public Integer call() {
    try (StudyFolder folder = StudyFolder.finishedToRead(location, StudyFolder.configuration())) {
      Path written = export(folder);
      for (String remark : remarks(folder.manifest().report())) {
        spec.commandLine().getErr().println(remark);
      }
      spec.commandLine().getOut().println("Export: " + written);
      return ExitCode.DONE;
    }
  }

  private Path export(StudyFolder folder) {
    try {
      return new StudyExport(
              folder.source(),
              folder.manifest(),
              StudyFolder.configuration(),
              spec.commandLine().getErr()::println)
          .into(into, folder::refuseChanged);
    } catch (InputException e) {
      // What cannot be read any more may be another study by now, which says more.
      folder.refuseChanged();
      throw e;
    }
  }

  /** What a study keeps out of its report, an export has all the same. */
  private static List<String> remarks(Manifest.Report report) {
    List<String> remarks = new ArrayList<>();
    if (report.pseudonyms()) {
      remarks.add(
          "The export has the students' names and the paths of their files as they are: pseudonyms"
              + " are for the report alone. Mind whom you give it to.");
    }
    if (!report.excerpts()) {
      remarks.add(
          "The export has every note of the solos: leaving notation out is for the report alone."
              + " Mind whom you give it to.");
    }
    return remarks;
  }
}
