package phrasecensus.comparison;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import phrasecensus.music.norm.BenjaminiHochberg;
import phrasecensus.tables.TableRow;

/** Adjusts the p-values of statistics that were tested together, and says how many they were. */
public final class AdjustedPValues {
  private AdjustedPValues() {}

  /**
   * The same rows with {@code p_adjusted} and {@code tests}; those without a p-value as they are.
   *
   * @param family columns in which rows that belong together are equal
   */
  public static List<TableRow> of(List<TableRow> rows, List<String> family) {
    List<TableRow> adjusted = new ArrayList<>();
    Map<List<String>, List<TableRow>> families = new LinkedHashMap<>();
    for (TableRow row : rows) {
      if (row.isMissing("p_value")) {
        adjusted.add(row);
      } else {
        families
            .computeIfAbsent(family.stream().map(row::text).toList(), columns -> new ArrayList<>())
            .add(row);
      }
    }
    for (List<TableRow> tested : families.values()) {
      double[] pValues =
          BenjaminiHochberg.adjusted(
              tested.stream().mapToDouble(row -> row.number("p_value")).toArray());
      for (int i = 0; i < pValues.length; i++) {
        adjusted.add(
            TableRow.copyOf(tested.get(i))
                .set("p_adjusted", pValues[i])
                .set("tests", pValues.length)
                .build());
      }
    }
    return adjusted;
  }
}
