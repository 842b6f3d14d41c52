package phrasecensus.tables;

import java.util.function.Function;

/**
 * A table, as whoever writes or reads its rows names it.
 *
 * @param <R> its rows
 */
public final class Table<R extends Row> {
  private final String name;
  private final Function<CellSource, R> row;

  /**
   * @param name as in its schema
   * @param row makes a row of its cells
   */
  public Table(String name, Function<CellSource, R> row) {
    this.name = name;
    this.row = row;
  }

  /** Name of the table and of its folder. */
  public String name() {
    return name;
  }

  /** Its schema, without the columns that a study adds. */
  public TableSchema schema() {
    return TableSchemas.named(name);
  }

  /**
   * A row from its cells.
   *
   * @throws IllegalArgumentException if a word is in no vocabulary, or a value is missing that may
   *     not be
   */
  public R row(CellSource cells) {
    return row.apply(cells);
  }

  /** What a row throws that lacks a value. */
  public IllegalArgumentException missing(String column) {
    return new IllegalArgumentException("Missing value for " + name + "." + column);
  }

  /** What a row throws that is given no number. */
  public IllegalArgumentException notFinite(String column, double value) {
    return new IllegalArgumentException("Invalid value for " + name + "." + column + ": " + value);
  }

  @Override
  public String toString() {
    return name;
  }
}
