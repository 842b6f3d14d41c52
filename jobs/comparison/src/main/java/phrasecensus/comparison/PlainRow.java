package phrasecensus.comparison;

import java.io.Serializable;
import java.util.ArrayList;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSchemas;

/** A table's row as plain values, as Spark can send it. */
public record PlainRow(String table, ArrayList<Object> values) implements Serializable {
  public static PlainRow of(TableRow row) {
    ArrayList<Object> values = new ArrayList<>();
    for (int i = 0; i < row.schema().columns().size(); i++) {
      values.add(row.value(i));
    }
    return new PlainRow(row.schema().table(), values);
  }

  public TableRow row() {
    TableSchema schema = TableSchemas.named(table);
    TableRow.Builder row = TableRow.of(schema);
    for (int i = 0; i < values.size(); i++) {
      row.set(schema.columns().get(i).name(), values.get(i));
    }
    return row.build();
  }
}
