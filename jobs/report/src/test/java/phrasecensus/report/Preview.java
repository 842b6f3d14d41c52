package phrasecensus.report;

import java.nio.file.Path;
import phrasecensus.tables.StatisticsCatalogue;

/** Writes the report of the invented study into a folder, for looking at. */
final class Preview {
  private Preview() {}

  public static void main(String[] arguments) {
    Path folder = Path.of(arguments[0]);
    write(InventedStudy.usual(), ReportSettings.usual(), folder.resolve("usual"));
    write(InventedStudy.small(), ReportSettings.usual(), folder.resolve("small"));
    write(InventedStudy.bare(), ReportSettings.usual(), folder.resolve("bare"));
  }

  private static void write(InventedStudy study, ReportSettings settings, Path folder) {
    StudyReport.write(
        study.tables(), study.manifest(), StatisticsCatalogue.builtIn(), settings, folder);
  }
}
