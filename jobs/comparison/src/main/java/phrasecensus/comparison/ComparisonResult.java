package phrasecensus.comparison;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import phrasecensus.music.norm.RobustUnit;
import phrasecensus.tables.TableRow;

/**
 * The finished rows of all statistics, without order.
 *
 * @param rows by table, without what depends on other statistics: adjusted p-values
 * @param departures of table departures, to be judged together
 * @param units middle and spread in each compared statistic that has a spread, by group; empty
 *     without students
 * @param means of groups in compared statistics, the whole corpus left out; none without students
 * @param places of the corpus in compared statistics; none without students
 */
public record ComparisonResult(
    Map<String, List<TableRow>> rows,
    List<DepartureRows.Draft> departures,
    Map<GroupKey, Map<String, RobustUnit>> units,
    List<GroupMean> means,
    List<StatisticPlaces> places) {

  /** What the findings of all statistics are together. */
  public static ComparisonResult of(List<StatisticFindings> all) {
    Map<String, List<TableRow>> rows = new TreeMap<>();
    List<DepartureRows.Draft> departures = new ArrayList<>();
    Map<GroupKey, Map<String, RobustUnit>> units = new HashMap<>();
    List<GroupMean> means = new ArrayList<>();
    List<StatisticPlaces> places = new ArrayList<>();
    for (StatisticFindings each : all) {
      for (PlainRow row : each.rows()) {
        rows.computeIfAbsent(row.table(), table -> new ArrayList<>()).add(row.row());
      }
      each.departures().forEach(draft -> departures.add(draft.draft()));
      for (StatisticFindings.GroupUnit unit : each.units()) {
        units
            .computeIfAbsent(unit.group(), group -> new TreeMap<>())
            .put(each.statistic(), new RobustUnit(unit.median(), unit.spread()));
      }
      means.addAll(each.means());
      if (each.places() != null) {
        places.add(each.places());
      }
    }
    places.sort(Comparator.comparing(StatisticPlaces::statistic));
    return new ComparisonResult(rows, departures, units, means, places);
  }

  /** The rows of a table; none when it is not made. */
  public List<TableRow> of(String table) {
    return rows.getOrDefault(table, List.of());
  }
}
