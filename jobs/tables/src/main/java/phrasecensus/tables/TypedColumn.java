package phrasecensus.tables;

import java.util.List;
import java.util.function.Function;

/**
 * A column with the type of its values, for rows of which only some columns are read. The build
 * writes one for each column of each table.
 *
 * @param <T> its values
 */
public sealed class TypedColumn<T> implements Columns permits TextColumn {
  private final String table;
  private final String name;
  private final Function<Object, T> value;

  TypedColumn(String table, String name, Function<Object, T> value) {
    this.table = table;
    this.name = name;
    this.value = value;
  }

  /** Its name, as in the schema. */
  public final String name() {
    return name;
  }

  /** True where a row was read with this column, and its table has it. */
  public final boolean isIn(TableRow row) {
    return row.schema().has(name);
  }

  /** The value in a row of its table; null where missing. */
  final T of(TableRow row) {
    if (!row.table().equals(table)) {
      throw new IllegalArgumentException("Invalid row of " + row.table() + " for " + this);
    }
    Object found = row.value(name);
    return found == null ? null : value.apply(found);
  }

  @Override
  public final List<TypedColumn<?>> columns() {
    return List.of(this);
  }

  @Override
  public final String toString() {
    return table + "." + name;
  }
}
