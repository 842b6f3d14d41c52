package phrasecensus.tables;

import java.util.List;

/** One column of a table, or several that make one value: what may be asked of a row. */
public interface Columns {
  /** The columns, in the order of the table. */
  List<TypedColumn<?>> columns();
}
