package phrasecensus.report.view;

import java.util.Locale;
import java.util.Map;
import phrasecensus.report.ReportSettings;
import phrasecensus.report.rows.StudentSolo;
import phrasecensus.report.rows.StudyRows;
import phrasecensus.report.wording.Numbers;
import phrasecensus.report.wording.Task;
import phrasecensus.report.wording.Wording;
import phrasecensus.tables.AimsDefinition;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.StudySettings;

/** What every page is made from. */
record PageSource(
    StudyRows rows,
    Manifest manifest,
    StatisticsCatalogue catalogue,
    ReportSettings settings,
    Names names,
    Numbers numbers,
    Wording wording,
    Scores scores,
    CorpusPhrases corpusPhrases) {

  /** The level of tasks that the metadata of a solo say, 1 to 3; 1 where they say nothing. */
  int level(StudentSolo solo) {
    String column = AimsDefinition.parse(manifest.settings().get(StudySettings.AIMS)).levelColumn();
    Map<String, String> columns = solo.facts().columns();
    String level = columns.getOrDefault(column, columns.getOrDefault("metadata_" + column, ""));
    String word = level.strip().toLowerCase(Locale.ROOT);
    if (word.startsWith("3") || word.startsWith("adv") || word.startsWith("upper")) {
      return Task.LAST_LEVEL;
    }
    return word.startsWith("2") || word.startsWith("inter") || word.startsWith("middle")
        ? 2
        : Task.FIRST_LEVEL;
  }
}
