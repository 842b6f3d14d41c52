package phrasecensus.spark;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import phrasecensus.music.norm.Departures;
import phrasecensus.tables.TableRow;

/**
 * Puts the departures of each student, scope, solo and reference group in the order of {@link
 * Departures#ranked(List, java.util.function.Function, java.util.function.Function,
 * java.util.function.Function)}. Those without a strength have no place.
 */
final class DepartureRanking {
  /** Rows that are equal in these are ranked, and were tested, together. */
  static final List<String> LIST_COLUMNS =
      List.of("student", "scope", "solo_id", "group_by", "group_value");

  private DepartureRanking() {}

  /** The same rows with their places. */
  static List<TableRow> ranked(List<TableRow> departures) {
    Map<String, List<TableRow>> lists = new TreeMap<>();
    List<TableRow> all = new ArrayList<>();
    for (TableRow row : departures) {
      String verdict = row.text("verdict");
      if ((verdict.equals("above") || verdict.equals("below")) && !row.isMissing("strength")) {
        lists
            .computeIfAbsent(
                String.join("\u0000", LIST_COLUMNS.stream().map(row::text).toList()),
                key -> new ArrayList<>())
            .add(row);
      } else {
        all.add(row);
      }
    }
    for (List<TableRow> list : lists.values()) {
      List<TableRow> order =
          Departures.ranked(
              list,
              row -> row.text("facet"),
              row -> row.number("strength"),
              row -> row.text("statistic"));
      for (int i = 0; i < order.size(); i++) {
        all.add(TableRow.copyOf(order.get(i)).set("place", i + 1).build());
      }
    }
    return all;
  }
}
