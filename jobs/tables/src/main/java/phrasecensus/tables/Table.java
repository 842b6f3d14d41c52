package phrasecensus.tables;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
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

  /**
   * Rows of this table's own type.
   *
   * @param rows as they were read, all with the columns of one study
   * @throws IllegalArgumentException if they lack a column, as rows of an earlier version do
   */
  public List<R> rows(List<TableRow> rows) {
    if (!rows.isEmpty() && !rows.get(0).isLaidOutAs(schema())) {
      throw new IllegalArgumentException("Invalid columns for rows of " + name);
    }
    List<R> typed = new ArrayList<>(rows.size());
    for (TableRow each : rows) {
      typed.add(row(each.cells()));
    }
    return typed;
  }

  /** A column of texts, for the row that the build writes. */
  public TextColumn<String> text(String column) {
    return new TextColumn<>(name, column, Function.identity(), Function.identity());
  }

  /** A column of words of a vocabulary. */
  public <W extends Word> TextColumn<W> word(String column, Function<String, W> word) {
    return new TextColumn<>(name, column, word, Word::word);
  }

  /** A column of whole numbers. */
  public TypedColumn<Integer> whole(String column) {
    return new TypedColumn<>(name, column, Integer.class::cast);
  }

  /** A column of whole numbers of 64 bits. */
  public TypedColumn<Long> longWhole(String column) {
    return new TypedColumn<>(name, column, Long.class::cast);
  }

  /** A column of numbers. */
  public TypedColumn<Double> number(String column) {
    return new TypedColumn<>(name, column, Double.class::cast);
  }

  /** A column of yes or no. */
  public TypedColumn<Boolean> flag(String column) {
    return new TypedColumn<>(name, column, Boolean.class::cast);
  }

  /** A column of days. */
  public TypedColumn<LocalDate> date(String column) {
    return new TypedColumn<>(name, column, LocalDate.class::cast);
  }

  /** A column of lists of texts. */
  @SuppressWarnings("unchecked") // Rows are checked against the schema when they are made.
  public TypedColumn<List<String>> texts(String column) {
    return new TypedColumn<>(name, column, value -> (List<String>) value);
  }

  /** A column of lists of whole numbers. */
  @SuppressWarnings("unchecked") // As above.
  public TypedColumn<List<Integer>> wholes(String column) {
    return new TypedColumn<>(name, column, value -> (List<Integer>) value);
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
