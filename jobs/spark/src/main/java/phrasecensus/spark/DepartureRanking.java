package phrasecensus.spark;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import phrasecensus.tables.Column;
import phrasecensus.tables.TableRow;

/**
 * Puts the departures of each student, scope, solo and reference group in order: the largest of each
 * facet first, then the others, by strength.
 */
final class DepartureRanking {
  private static final Comparator<TableRow> STRONGEST_FIRST =
      Comparator.comparing((TableRow row) -> row.number("strength"), Comparator.reverseOrder())
          .thenComparing(row -> row.text("statistic"));

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
                String.join(
                    "\u0000",
                    row.text("student"),
                    row.text("scope"),
                    row.text("solo_id"),
                    row.text("group_by"),
                    row.text("group_value")),
                key -> new ArrayList<>())
            .add(row);
      } else {
        all.add(row);
      }
    }
    for (List<TableRow> list : lists.values()) {
      list.sort(STRONGEST_FIRST);
      List<TableRow> order = new ArrayList<>();
      List<TableRow> rest = new ArrayList<>();
      Set<String> facets = new HashSet<>();
      for (TableRow row : list) {
        (facets.add(row.text("facet")) ? order : rest).add(row);
      }
      order.addAll(rest);
      for (int i = 0; i < order.size(); i++) {
        all.add(withPlace(order.get(i), i + 1));
      }
    }
    return all;
  }

  private static TableRow withPlace(TableRow row, int place) {
    TableRow.Builder copy = TableRow.of(row.schema());
    for (Column column : row.schema().columns()) {
      copy.set(column.name(), column.name().equals("place") ? place : row.value(column.name()));
    }
    return copy.build();
  }
}
