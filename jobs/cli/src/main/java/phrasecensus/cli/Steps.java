package phrasecensus.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import phrasecensus.report.ReportSettings;
import phrasecensus.report.StudyReport;
import phrasecensus.spark.StudyRunner;
import phrasecensus.store.ReportPages;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.InputException;
import phrasecensus.tables.StatisticsCatalogue;

/** What several commands do in the same way. */
final class Steps {
  private static final int REASONS_SHOWN = 10;

  private Steps() {}

  /** Makes the report of a study's current tables and puts it in the study folder. */
  static String report(StudyFolder folder, ReportOptions options) {
    if (!folder.manifest().tables().containsKey("norms")) {
      throw new InputException(
          "Cannot write the report of "
              + folder.location()
              + ": the study has no norms yet. Run 'phrase-census norms' on it first.");
    }
    return folder.publish(pages(options));
  }

  /** What makes the pages of a report. */
  static ReportPages pages(ReportOptions options) {
    return (tables, manifest, into) ->
        StudyReport.write(
            tables,
            manifest,
            StatisticsCatalogue.builtIn(),
            new ReportSettings(
                manifest.report().excerpts() && !options.noExcerpts,
                manifest.report().pseudonyms() || options.pseudonyms,
                options.concertPitch(),
                options.locale()),
            into);
  }

  /** Says what was found in the folder of a study. */
  static void printRemarks(StudyFolder folder, PrintWriter err) {
    folder.remarks().forEach(err::println);
  }

  /** The same after a step that leaves the report as it is: of which tables that is. */
  static void printRemarksAndReport(StudyFolder folder, PrintWriter err) {
    printRemarks(folder, err);
    if (folder.hasOlderReport()) {
      err.println(
          "The report in "
              + folder.reportLocation()
              + " is of the tables before these. 'phrase-census report "
              + folder.location()
              + "' writes it anew.");
    }
  }

  /** Deletes a folder for temporary files; null for none. */
  static void delete(Path folder) {
    if (folder == null) {
      return;
    }
    try (Stream<Path> paths = Files.walk(folder)) {
      for (Path path : paths.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(path);
      }
    } catch (IOException e) {
      // A left-over in the folder for temporary files harms nobody.
    }
  }

  /**
   * Prints the counts of a reading, why files were rejected, and on which of them the program
   * failed.
   *
   * @param debugging also shows where it failed
   */
  static void printCounts(
      StudyRunner.Outcome outcome, PrintWriter out, PrintWriter err, boolean debugging) {
    outcome.remarks().forEach(err::println);
    int shown = 0;
    for (Map.Entry<String, String> entry : outcome.rejected().entrySet()) {
      if (shown++ == REASONS_SHOWN) {
        err.println(
            "… and " + (outcome.rejected().size() - REASONS_SHOWN) + " more in table files");
        break;
      }
      err.println("Cannot read " + ShownText.name(entry.getKey()) + ": " + entry.getValue());
    }
    printFaults(outcome.faults(), err, debugging);
    out.println(
        String.format(
            Locale.ROOT,
            "Read %d of %d files: %d notes; rejected %d%s.",
            outcome.read(),
            outcome.read() + outcome.rejected().size(),
            outcome.notes(),
            outcome.rejected().size(),
            outcome.faults().isEmpty()
                ? ""
                : ", of which " + outcome.faults().size() + " by a fault of the program"));
    if (outcome.reused() > 0) {
      out.println(
          String.format(
              Locale.ROOT,
              "Not changed since the last run, and taken over from it: %d files.",
              outcome.reused()));
    }
  }

  private static void printFaults(Map<String, String> faults, PrintWriter err, boolean debugging) {
    if (faults.isEmpty()) {
      return;
    }
    err.println(
        "The program failed on "
            + (faults.size() == 1 ? "a file" : faults.size() + " files")
            + " and went on without: "
            + faults.keySet().stream()
                .limit(REASONS_SHOWN)
                .map(ShownText::name)
                .collect(Collectors.joining(", "))
            + (faults.size() > REASONS_SHOWN
                ? " and " + (faults.size() - REASONS_SHOWN) + " more in table files"
                : "")
            + ". Please report it"
            + (debugging ? "." : ", with what the same command says with --fresh --debug."));
    if (debugging) {
      faults.forEach((file, trace) -> err.println(file + ": " + trace));
    }
  }

  /** The exit code of a reading. */
  static int exitCode(StudyRunner.Outcome outcome, boolean strict) {
    return strict && !outcome.rejected().isEmpty() ? ExitCode.REJECTED_FILES : ExitCode.DONE;
  }
}
