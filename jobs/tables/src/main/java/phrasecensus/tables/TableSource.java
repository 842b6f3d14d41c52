package phrasecensus.tables;

import java.util.List;
import java.util.Map;

/** Where rows of a finished study come from. */
public interface TableSource {

  /**
   * Rows of a table, sorted by its key.
   *
   * @param table name of the table
   * @param equal columns and the text each must have; empty for every row
   * @throws InputException if the table is missing or cannot be read
   */
  List<TableRow> rows(String table, Map<String, String> equal);

  /** Every row of a table. */
  default List<TableRow> rows(String table) {
    return rows(table, Map.of());
  }
}
