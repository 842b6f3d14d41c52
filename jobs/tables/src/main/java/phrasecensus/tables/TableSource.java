package phrasecensus.tables;

import java.util.List;
import java.util.Map;
import java.util.Set;

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

  /**
   * Rows of a table that have one of several texts in a column, sorted by its key.
   *
   * @param column a column of texts
   * @param texts what it may hold
   * @throws InputException if the table is missing or cannot be read
   */
  default List<TableRow> rows(String table, String column, Set<String> texts) {
    return rows(table).stream().filter(row -> texts.contains(row.text(column))).toList();
  }
}
