package phrasecensus.spark.parquet;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileStatus;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import org.apache.parquet.filter2.compat.FilterCompat;
import org.apache.parquet.filter2.predicate.FilterApi;
import org.apache.parquet.filter2.predicate.FilterPredicate;
import org.apache.parquet.hadoop.ParquetFileReader;
import org.apache.parquet.hadoop.metadata.FileMetaData;
import org.apache.parquet.hadoop.util.HadoopInputFile;
import org.apache.parquet.io.ParquetDecodingException;
import org.apache.parquet.io.api.Binary;
import phrasecensus.tables.Column;
import phrasecensus.tables.InputException;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSchemas;
import phrasecensus.tables.TableSource;

/** The tables of a study folder, read row by row in the driver: for what fits on a page. */
public final class ParquetTables implements TableSource {
  private final Path tables;
  private final Configuration configuration;

  /**
   * @param tables the folder that holds one folder a table
   */
  public ParquetTables(Path tables, Configuration configuration) {
    this.tables = tables;
    this.configuration = new Configuration(configuration);
    // The files are small: threads to fetch their pieces cost more than they save.
    this.configuration.setBoolean("parquet.hadoop.vectored.io.enabled", false);
  }

  @Override
  public List<TableRow> rows(String table, Map<String, String> equal) {
    try {
      List<TableRow> rows = new ArrayList<>();
      List<Path> files = files(table);
      // A commit writes all files of a table with one schema.
      TableSchema schema = schema(table, files.get(0));
      // What reading makes lies in files named for the role, and need not be opened to be passed over.
      String role = equal.get("role");
      for (Path file : files) {
        if (role == null || !isOfOtherRole(file.getName(), role)) {
          readFile(file, schema, equal, rows::add);
        }
      }
      List<String> key = TableSchemas.named(table).key();
      rows.sort(byKey(key));
      return rows;
    } catch (IOException e) {
      throw new InputException(
          "Cannot read table " + table + " in " + tables + ": " + e.getMessage(), e);
    }
  }

  /** Takes rows one after the other. */
  @FunctionalInterface
  public interface RowTaker {
    void take(TableRow row) throws IOException;
  }

  /**
   * Every row of a table in the order of its key, without ever holding more than the rows of one
   * input file: a study's files of a table are in the order of the inputs, and only the rows of one
   * input are not yet sorted.
   *
   * @throws InputException if the table is missing or cannot be read
   * @throws IOException if {@code into} does
   */
  public void each(String table, RowTaker into) throws IOException {
    List<Path> files = files(table);
    TableSchema schema = schema(table, files.get(0));
    InputAtATime inputs = new InputAtATime(schema, into);
    for (Path file : files) {
      try {
        readFile(file, schema, Map.of(), inputs);
      } catch (ParquetDecodingException | IllegalArgumentException e) {
        throw new InputException(
            "Cannot read table " + table + " in " + tables + ": " + e.getMessage(), e);
      }
    }
    inputs.finish();
  }

  /** Sorts the rows of one input and passes them on, then those of the next. */
  private static final class InputAtATime implements RowTaker {
    private final boolean byInput;
    private final Comparator<TableRow> order;
    private final RowTaker into;
    private final List<TableRow> held = new ArrayList<>();
    private TableRow last;

    InputAtATime(TableSchema schema, RowTaker into) {
      this.byInput = schema.has("role") && schema.has("file");
      this.order = byKey(schema.key());
      this.into = into;
    }

    @Override
    public void take(TableRow row) throws IOException {
      if (!held.isEmpty() && !(byInput && isOfSameInput(held.get(0), row))) {
        finish();
      }
      held.add(row);
    }

    private static boolean isOfSameInput(TableRow first, TableRow second) {
      return first.text("file").equals(second.text("file"))
          && first.text("role").equals(second.text("role"));
    }

    void finish() throws IOException {
      held.sort(order);
      for (TableRow row : held) {
        if (last != null && order.compare(last, row) >= 0) {
          throw new InputException(
              "Cannot use table "
                  + row.schema().table()
                  + ": its rows are not in the order of its key, so another program wrote it or"
                  + " changed it. Run the study again.");
        }
        into.take(row);
        last = row;
      }
      held.clear();
    }
  }

  /** The schema that a table was written with, metadata columns included. */
  public TableSchema schema(String table) {
    try {
      return schema(table, files(table).get(0));
    } catch (IOException e) {
      throw new InputException(
          "Cannot read table " + table + " in " + tables + ": " + e.getMessage(), e);
    }
  }

  private static boolean isOfOtherRole(String name, String role) {
    int dash = name.indexOf('-');
    return !name.startsWith("part-") && dash > 0 && !name.substring(0, dash).equals(role);
  }

  private List<Path> files(String table) throws IOException {
    Path folder = new Path(tables, table);
    FileSystem fileSystem = folder.getFileSystem(configuration);
    List<Path> files = new ArrayList<>();
    if (fileSystem.exists(folder)) {
      FileStatus[] statuses = fileSystem.listStatus(folder);
      Arrays.sort(statuses, Comparator.comparing(status -> status.getPath().getName()));
      for (FileStatus status : statuses) {
        if (status.getPath().getName().endsWith(".parquet")) {
          files.add(status.getPath());
        }
      }
    }
    if (files.isEmpty()) {
      throw new InputException(
          "Cannot find table "
              + table
              + " in "
              + tables
              + ". Run 'phrase-census study' (or the step that makes it) first.");
    }
    return files;
  }

  private TableSchema schema(String table, Path file) throws IOException {
    FileMetaData metadata;
    try (ParquetFileReader reader =
        ParquetFileReader.open(HadoopInputFile.fromPath(file, configuration))) {
      metadata = reader.getFooter().getFileMetaData();
    }
    TableSchema schema = TableSchemas.named(table);
    String version = metadata.getKeyValueMetaData().get("phrasecensus.version");
    if (!Integer.toString(schema.version()).equals(version)) {
      throw new InputException(
          "Cannot use table "
              + table
              + " in "
              + tables
              + ": it was written with schema version "
              + version
              + ", this program has version "
              + schema.version()
              + ". Run the study again.");
    }
    if (schema.isOpenForMetadata()) {
      List<String> further = new ArrayList<>();
      for (var field : metadata.getSchema().getFields()) {
        if (!schema.has(field.getName())) {
          further.add(field.getName());
        }
      }
      schema = schema.withMetadata(further);
    }
    return schema;
  }

  private void readFile(
      Path file, TableSchema schema, Map<String, String> equal, RowTaker into)
      throws IOException {
    FilterPredicate predicate = null;
    Predicate<TableRow> check = row -> true;
    for (Map.Entry<String, String> entry : equal.entrySet()) {
      FilterPredicate one =
          FilterApi.eq(
              FilterApi.binaryColumn(entry.getKey()), Binary.fromString(entry.getValue()));
      predicate = predicate == null ? one : FilterApi.and(predicate, one);
      check = check.and(row -> entry.getValue().equals(row.text(entry.getKey())));
    }
    List<String> columns = schema.columns().stream().map(Column::name).toList();
    try (ColumnScan scan =
        ColumnScan.open(
            file,
            columns,
            predicate == null ? FilterCompat.NOOP : FilterCompat.get(predicate),
            configuration)) {
      for (Object[] values = scan.next(); values != null; values = scan.next()) {
        TableRow.Builder row = TableRow.of(schema);
        for (int i = 0; i < values.length; i++) {
          row.set(columns.get(i), values[i]);
        }
        TableRow built = row.build();
        if (check.test(built)) {
          into.take(built);
        }
      }
    }
  }

  /** Orders rows by the columns of a key. */
  @SuppressWarnings("unchecked")
  public static Comparator<TableRow> byKey(List<String> key) {
    return (first, second) -> {
      for (String column : key) {
        Object a = first.value(column);
        Object b = second.value(column);
        int order =
            a == null || b == null
                ? Boolean.compare(a != null, b != null)
                : ((Comparable<Object>) a).compareTo(b);
        if (order != 0) {
          return order;
        }
      }
      return 0;
    };
  }
}
