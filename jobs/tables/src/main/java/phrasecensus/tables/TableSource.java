package phrasecensus.tables;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;

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

  /**
   * Rows of a table one after the other, for what is counted or added up: the source holds none of
   * them, however many there are. Input files come in the order of the key, the rows of one as they
   * were written, so that the solos of two tables come in the same order. To be closed.
   *
   * @param columns what is asked of the rows beside the columns of {@code among}; they may not know
   *     any other
   * @param among texts by column, of which a row must have one; empty for every row
   * @throws InputException if the table is missing or cannot be read, now or as the rows are taken
   */
  default Stream<TableRow> stream(
      String table, List<String> columns, Map<String, Set<String>> among) {
    Map<String, String> equal = new TreeMap<>();
    among.forEach(
        (column, texts) -> {
          if (texts.size() == 1) {
            equal.put(column, texts.iterator().next());
          }
        });
    return rows(table, equal).stream()
        .filter(
            row ->
                among.entrySet().stream()
                    .allMatch(one -> one.getValue().contains(row.text(one.getKey()))));
  }

  /**
   * The first rows of a table in the order of its key.
   *
   * @param most how many at most, 0 or more
   * @throws InputException if the table is missing or cannot be read
   */
  default List<TableRow> first(String table, int most) {
    return rows(table).stream().limit(most).toList();
  }

  /**
   * Rows of a table, sorted by its key, each in the form that its table has.
   *
   * @param among every one of which a row must meet; none for every row
   * @throws InputException if the table is missing or cannot be read, or was made by another
   *     version
   */
  default <R extends Row> List<R> rows(Table<R> table, Among... among) {
    try {
      return table.rows(tableRows(table, among));
    } catch (IllegalArgumentException e) {
      throw new InputException(
          "Cannot use table " + table + ": " + e.getMessage() + ". Make the study again.", e);
    }
  }

  /**
   * The same for what asks rows for columns that only the study knows, as groupings do.
   *
   * @throws InputException if the table is missing or cannot be read
   */
  default List<TableRow> tableRows(Table<?> table, Among... among) {
    Map<String, String> equal = new TreeMap<>();
    Among several = null;
    for (Among each : among) {
      if (each.one()) {
        equal.put(each.column(), each.texts().iterator().next());
      } else if (several == null) {
        several = each;
      } else {
        throw new IllegalArgumentException(
            "Cannot look in " + table + " for several texts in two columns at once");
      }
    }
    if (several == null) {
      return rows(table.name(), equal);
    }
    return rows(table.name(), several.column(), several.texts()).stream()
        .filter(row -> equal.entrySet().stream().allMatch(one -> has(row, one)))
        .toList();
  }

  private static boolean has(TableRow row, Map.Entry<String, String> text) {
    return text.getValue().equals(row.text(text.getKey()));
  }

  /** The same as {@link #stream(String, List, Map)} with columns that know their types. */
  default Stream<TableRow> stream(Table<?> table, List<? extends Columns> columns, Among... among) {
    List<String> names = new ArrayList<>();
    columns.forEach(some -> some.columns().forEach(column -> names.add(column.name())));
    Map<String, Set<String>> texts = new TreeMap<>();
    for (Among each : among) {
      texts.put(each.column(), each.texts());
    }
    return stream(table.name(), names, texts);
  }
}
