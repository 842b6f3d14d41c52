package phrasecensus.spark;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.Path;
import phrasecensus.spark.parquet.ColumnScan;
import phrasecensus.tables.Column;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;

/**
 * The rows of an earlier run, file by file. Files must be asked for in order of path, which is the
 * order in which they lie in the parts: every part is read through once.
 */
final class EarlierRows implements AutoCloseable {
  private final String folder;
  private final Function<String, TableSchema> schemas;
  private final Configuration configuration;
  private final Map<String, Cursor> cursors = new HashMap<>();
  private List<TableRow> lastFiles = List.of();
  private List<TableRow> lastSolos = List.of();

  EarlierRows(
      String folder, Function<String, TableSchema> schemas, Configuration configuration) {
    this.folder = folder;
    this.schemas = schemas;
    this.configuration = configuration;
  }

  /** A file of a table, read up to some row. */
  private final class Cursor {
    private final TableSchema schema;
    private final ColumnScan scan;
    private final int file;
    private Object[] next;

    Cursor(String part, String table) throws IOException {
      this.schema = schemas.apply(table);
      List<String> columns = schema.columns().stream().map(Column::name).toList();
      this.scan =
          ColumnScan.open(new Path(folder + "/" + table, part), columns, configuration);
      this.file = schema.place("file");
      this.next = scan.next();
    }

    List<TableRow> of(String wanted) throws IOException {
      while (next != null && ((String) next[file]).compareTo(wanted) < 0) {
        next = scan.next();
      }
      List<TableRow> rows = new ArrayList<>();
      while (next != null && next[file].equals(wanted)) {
        rows.add(TableRow.of(schema, next));
        next = scan.next();
      }
      return rows;
    }
  }

  /** The rows of a file in a table. */
  List<TableRow> of(String part, String table, String file) throws IOException {
    String name = part + " " + table;
    Cursor cursor = cursors.get(name);
    if (cursor == null) {
      cursor = new Cursor(part, table);
      cursors.put(name, cursor);
    }
    List<TableRow> rows = cursor.of(file);
    if (table.equals("files")) {
      lastFiles = rows;
    } else if (table.equals("solos")) {
      lastSolos = rows;
    }
    return rows;
  }

  /** What became of the file whose rows were asked for last. */
  BucketResult.FileOutcome outcome(InputFile file) {
    TableRow row = lastFiles.get(0);
    return new BucketResult.FileOutcome(
        file.role(),
        file.file(),
        row.text("sha256"),
        row.text("reason"),
        lastSolos.isEmpty() ? 0 : lastSolos.get(0).integer("notes"),
        true);
  }

  @Override
  public void close() throws IOException {
    for (Cursor cursor : cursors.values()) {
      cursor.scan.close();
    }
  }
}
