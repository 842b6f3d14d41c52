package phrasecensus.store;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.apache.hadoop.conf.Configuration;
import phrasecensus.store.parquet.ColumnScan;
import phrasecensus.tables.Column;
import phrasecensus.tables.InputFile;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSchemas;

/**
 * The rows of an earlier run, file by file. Files must be asked for in order of path, which is the
 * order in which they lie in the parts: every part is read through once.
 */
public final class EarlierRows implements AutoCloseable {
  private final Function<String, TableSchema> schemas;
  private final Configuration configuration;
  private final Map<String, Cursor> cursors = new HashMap<>();
  private final EarlierReading earlier;
  private final Map<EarlierReading.Part, List<String>> differing = new HashMap<>();

  /**
   * @param schemas of the tables by name
   */
  public EarlierRows(
      EarlierReading earlier, Function<String, TableSchema> schemas, Configuration configuration) {
    this.earlier = earlier;
    this.schemas = schemas;
    this.configuration = configuration;
  }

  /** A file of a table, read up to some row. */
  private final class Cursor {
    private final TableSchema schema;
    private final ColumnScan scan;
    private final int file;
    private Object[] next;

    Cursor(EarlierReading.Part part, String table) throws IOException {
      this.schema = schemas.apply(table);
      List<String> columns = schema.columns().stream().map(Column::name).toList();
      this.scan = ColumnScan.open(part.file(table), columns, configuration);
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

  /** Files of the study, relative to its folder, that were found damaged. */
  public List<String> damaged() {
    List<String> damaged = new ArrayList<>();
    differing.forEach(
        (part, tables) -> {
          if (part.current()) {
            tables.forEach(table -> damaged.add(part.path(table)));
          }
        });
    return damaged;
  }

  /** The rows of a file by table; null when the part is not as it was written. */
  public Map<String, List<TableRow>> of(EarlierReading.Part part, InputFile file) {
    if (!differing
        .computeIfAbsent(part, each -> earlier.differing(each, configuration))
        .isEmpty()) {
      return null;
    }
    Map<String, List<TableRow>> rows = new LinkedHashMap<>();
    try {
      for (String table : TableSchemas.OF_READING) {
        String name = part + " " + table;
        Cursor cursor = cursors.get(name);
        if (cursor == null) {
          cursor = new Cursor(part, table);
          cursors.put(name, cursor);
        }
        rows.put(table, cursor.of(file.file()));
      }
    } catch (IOException | RuntimeException e) {
      return null;
    }
    return rows.get("files").isEmpty() ? null : rows;
  }

  /** What became of a file, from its rows. */
  public static BucketResult.FileOutcome outcome(InputFile file, Map<String, List<TableRow>> rows) {
    TableRow row = rows.get("files").get(0);
    List<TableRow> solos = rows.get("solos");
    return new BucketResult.FileOutcome(
        file.role(),
        file.file(),
        row.text("sha256"),
        row.text("reason"),
        solos.isEmpty() ? 0 : solos.get(0).integer("notes"),
        row.text("line_digest"),
        true,
        false,
        null);
  }

  @Override
  public void close() throws IOException {
    for (Cursor cursor : cursors.values()) {
      cursor.scan.close();
    }
  }
}
