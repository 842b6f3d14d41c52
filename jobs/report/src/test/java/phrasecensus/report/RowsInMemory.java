package phrasecensus.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;

/** A study whose tables are lists. */
final class RowsInMemory implements TableSource {
  private final Map<String, List<TableRow>> tables = new LinkedHashMap<>();

  RowsInMemory add(TableRow row) {
    tables.computeIfAbsent(row.schema().table(), any -> new ArrayList<>()).add(row);
    return this;
  }

  @Override
  public List<TableRow> rows(String table, Map<String, String> equal) {
    return tables.getOrDefault(table, List.of()).stream()
        .filter(
            row ->
                equal.entrySet().stream().allMatch(e -> e.getValue().equals(row.value(e.getKey()))))
        .toList();
  }
}
