package phrasecensus.tables;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * One row of a table: the only form in which rows leave the analysis and reach files, jobs and
 * report. Checked against the schema when it is made.
 */
public final class TableRow implements Row {
  private final TableSchema schema;
  private final Object[] values;

  private TableRow(TableSchema schema, Object[] values) {
    this.schema = schema;
    this.values = values;
  }

  /** Starts a row of a table. */
  public static Builder of(TableSchema schema) {
    return new Builder(schema);
  }

  /**
   * A row from the values of all columns, in their order; null where missing.
   *
   * @throws IllegalArgumentException if a value has another type, or is missing and may not be
   */
  public static TableRow of(TableSchema schema, Object[] values) {
    Builder row = new Builder(schema);
    for (int i = 0; i < row.values.length; i++) {
      row.set(i, values[i]);
    }
    return row.build();
  }

  /**
   * The values of a row by the names of their columns, for what is the same for all tables.
   *
   * @param schema of its table, with the columns that the study adds
   * @throws IllegalArgumentException if it is a row of another table
   */
  public static TableRow of(TableSchema schema, Row row) {
    if (row instanceof TableRow same) {
      return same;
    }
    if (!row.table().equals(schema.table())) {
      throw new IllegalArgumentException("Invalid row of " + row.table() + " for " + schema);
    }
    Values values = new Values(schema.columns());
    row.into(values);
    return of(schema, values.values);
  }

  /** Starts a row of the same table with the values of another. */
  public static Builder copyOf(TableRow row) {
    Builder copy = new Builder(row.schema);
    System.arraycopy(row.values, 0, copy.values, 0, row.values.length);
    return copy;
  }

  public TableSchema schema() {
    return schema;
  }

  /** The value at a place; null where missing. Lists are unmodifiable. */
  public Object value(int place) {
    return values[place];
  }

  /** The value of a column; null where missing. */
  public Object value(String column) {
    return values[schema.place(column)];
  }

  /**
   * The value of a column; null where missing.
   *
   * @throws IllegalArgumentException if the row is of another table, or was read without it
   */
  public <T> T get(TypedColumn<T> column) {
    return column.of(this);
  }

  /** An exact number, rounded: for pictures. */
  public double quotient(FractionColumns columns) {
    return columns.in(this, (numerator, denominator) -> (double) numerator / denominator);
  }

  /** Text; null where missing. */
  public String text(String column) {
    return (String) value(column);
  }

  /**
   * The value of a column of single values in words: numbers with a point and no more digits than
   * they need, days as 2026-03-14; null where missing.
   */
  public String words(String column) {
    return words(value(column));
  }

  static String words(Object value) {
    return value == null
        ? null
        : value instanceof Double number ? DecimalText.of(number) : value.toString();
  }

  /**
   * A whole number.
   *
   * @throws NullPointerException where missing: ask {@link #isMissing} first for a nullable column
   */
  public int integer(String column) {
    return (Integer) value(column);
  }

  /** A whole number of 64 bits; same rule as {@link #integer}. */
  public long longInteger(String column) {
    return (Long) value(column);
  }

  /** A number; null where missing. */
  public Double number(String column) {
    return (Double) value(column);
  }

  /** A yes or no; null where missing. */
  public Boolean flag(String column) {
    return (Boolean) value(column);
  }

  /** A list of whole numbers. */
  @SuppressWarnings("unchecked")
  public List<Integer> integers(String column) {
    return (List<Integer>) value(column);
  }

  /** A list of texts. */
  @SuppressWarnings("unchecked")
  public List<String> texts(String column) {
    return (List<String>) value(column);
  }

  /** The quotient of {@code <stem>_num} and {@code <stem>_den}, rounded: for pictures. */
  public double quotient(String stem) {
    return (double) longInteger(stem + "_num") / longInteger(stem + "_den");
  }

  public boolean isMissing(String column) {
    return value(column) == null;
  }

  @Override
  public String table() {
    return schema.table();
  }

  @Override
  public void into(CellSink cells) {
    for (int i = 0; i < values.length; i++) {
      Object value = values[i];
      if (value == null) {
        cells.missing();
      } else if (value instanceof String text) {
        cells.text(text);
      } else if (value instanceof Integer number) {
        cells.whole(number.intValue());
      } else if (value instanceof Long number) {
        cells.longWhole(number.longValue());
      } else if (value instanceof Double number) {
        cells.number(number.doubleValue());
      } else if (value instanceof Boolean flag) {
        cells.flag(flag.booleanValue());
      } else if (value instanceof LocalDate day) {
        cells.date(day);
      } else if (schema.columns().get(i).type() == ColumnType.STRING_ARRAY) {
        cells.texts(texts(i));
      } else {
        cells.wholes(integers(i));
      }
    }
  }

  /** Its cells, from which a row of the table's own type can be made. */
  public CellSource cells() {
    return new Cells();
  }

  /**
   * True where its columns begin with those of a schema, so that its cells have the same places.
   */
  boolean isLaidOutAs(TableSchema wanted) {
    if (schema == wanted) {
      return true;
    }
    List<Column> own = schema.columns();
    List<Column> other = wanted.columns();
    if (!schema.table().equals(wanted.table()) || own.size() < other.size()) {
      return false;
    }
    for (int i = 0; i < other.size(); i++) {
      if (!own.get(i).name().equals(other.get(i).name())
          || own.get(i).type() != other.get(i).type()) {
        return false;
      }
    }
    return true;
  }

  @SuppressWarnings("unchecked")
  private List<String> texts(int place) {
    return (List<String>) values[place];
  }

  @SuppressWarnings("unchecked")
  private List<Integer> integers(int place) {
    return (List<Integer>) values[place];
  }

  /** The values of a row as they come, to be checked by the builder. */
  private static final class Values implements CellSink {
    private final List<Column> columns;
    private final Object[] values;
    private int filled;

    Values(List<Column> columns) {
      this.columns = columns;
      this.values = new Object[columns.size()];
    }

    private void add(Object value) {
      values[filled++] = value;
    }

    /** What a study adds comes in words, whatever its type. */
    @Override
    public void text(String value) {
      ColumnType type = columns.get(filled).type();
      add(
          value == null || type == ColumnType.STRING || type == ColumnType.STRING_ARRAY
              ? value
              : MetadataType.of(type).value(value));
    }

    @Override
    public void whole(int value) {
      add(value);
    }

    @Override
    public void longWhole(long value) {
      add(value);
    }

    @Override
    public void number(double value) {
      add(value);
    }

    @Override
    public void flag(boolean value) {
      add(value);
    }

    @Override
    public void date(LocalDate value) {
      add(value);
    }

    @Override
    public void texts(List<String> value) {
      add(value);
    }

    @Override
    public void wholes(List<Integer> value) {
      add(value);
    }

    @Override
    public void missing() {
      add(null);
    }
  }

  private final class Cells implements CellSource {
    @Override
    public boolean isMissing(int place) {
      return values[place] == null;
    }

    @Override
    public String text(int place) {
      return (String) values[place];
    }

    @Override
    public int whole(int place) {
      return (Integer) values[place];
    }

    @Override
    public long longWhole(int place) {
      return (Long) values[place];
    }

    @Override
    public double number(int place) {
      return (Double) values[place];
    }

    @Override
    public boolean flag(int place) {
      return (Boolean) values[place];
    }

    @Override
    public LocalDate date(int place) {
      return (LocalDate) values[place];
    }

    @Override
    public List<String> texts(int place) {
      return TableRow.this.texts(place);
    }

    @Override
    public List<Integer> wholes(int place) {
      return integers(place);
    }

    @Override
    public SortedMap<String, String> further(int from) {
      SortedMap<String, String> further = new TreeMap<>();
      for (int i = from; i < values.length; i++) {
        further.put(schema.columns().get(i).name(), words(values[i]));
      }
      return further;
    }
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof TableRow row
        && schema.table().equals(row.schema.table())
        && Arrays.equals(values, row.values);
  }

  @Override
  public int hashCode() {
    return Arrays.hashCode(values);
  }

  @Override
  public String toString() {
    return schema.table() + Arrays.toString(values);
  }

  /** Fills a row column by column, then checks it. */
  public static final class Builder {
    private final TableSchema schema;
    private final Object[] values;

    private Builder(TableSchema schema) {
      this.schema = schema;
      this.values = new Object[schema.columns().size()];
    }

    /**
     * Sets a value; null for missing.
     *
     * @throws IllegalArgumentException if there is no such column or the value has another type
     */
    public Builder set(String column, Object value) {
      set(schema.place(column), value);
      return this;
    }

    private void set(int place, Object value) {
      Column column = schema.columns().get(place);
      Class<?> valueClass = column.type().valueClass();
      if (value != null && value.getClass() != valueClass && !valueClass.isInstance(value)) {
        throw new IllegalArgumentException(
            "Invalid value for "
                + schema.table()
                + "."
                + column.name()
                + ": "
                + value.getClass().getSimpleName());
      }
      if (value instanceof Double number && (number.isNaN() || number.isInfinite())) {
        throw new IllegalArgumentException(
            "Invalid value for " + schema.table() + "." + column.name() + ": " + number);
      }
      // The column is asked, not the value: to find that a number is no list takes a search.
      values[place] =
          valueClass == List.class && value != null ? List.copyOf((List<?>) value) : value;
    }

    /** Sets {@code <stem>_num} and {@code <stem>_den}. */
    public Builder fraction(String stem, long numerator, long denominator) {
      return set(stem + "_num", numerator).set(stem + "_den", denominator);
    }

    /**
     * @throws IllegalArgumentException if a column that may not be missing is
     */
    public TableRow build() {
      for (int i = 0; i < values.length; i++) {
        if (values[i] == null && !schema.columns().get(i).nullable()) {
          throw new IllegalArgumentException(
              "Missing value for " + schema.table() + "." + schema.columns().get(i).name());
        }
      }
      return new TableRow(schema, values.clone());
    }
  }
}
