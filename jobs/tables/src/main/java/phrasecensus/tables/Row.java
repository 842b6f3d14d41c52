package phrasecensus.tables;

/** A row of a table. Each table has a record of its own, written by the build from its schema. */
public interface Row {
  /** Name of the table that it belongs to. */
  String table();

  /** Passes its cells on, one call a column, in the order of the columns. */
  void into(CellSink cells);
}
