package phrasecensus.report.view;

import phrasecensus.report.ReportSettings;
import phrasecensus.report.rows.StudyRows;
import phrasecensus.report.wording.Numbers;
import phrasecensus.report.wording.Wording;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.StatisticsCatalogue;

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
    CorpusPhrases corpusPhrases) {}
