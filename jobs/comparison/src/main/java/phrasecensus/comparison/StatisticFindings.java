package phrasecensus.comparison;

import java.io.Serializable;
import java.util.ArrayList;

/**
 * What became of one statistic, or of one mixture, on its way to where all of them come together.
 *
 * @param statistic its key
 * @param units of the groups that have a spread; none where the statistic is not compared
 * @param places of the corpus; null where the statistic is not compared, or nobody is
 */
public record StatisticFindings(
    String statistic,
    ArrayList<PlainRow> rows,
    ArrayList<DepartureRows.PlainDraft> departures,
    ArrayList<GroupUnit> units,
    ArrayList<GroupMean> means,
    StatisticPlaces places)
    implements Serializable {

  /** Middle and spread of a statistic in a group. */
  record GroupUnit(GroupKey group, double median, double spread) implements Serializable {}
}
