package phrasecensus.spark;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.FileUtil;
import org.apache.hadoop.fs.Path;
import org.apache.spark.TaskContext;
import phrasecensus.spark.parquet.TableFile;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSchemas;

/**
 * The files of one part, one a table, while a task writes them. Each has a name of the attempt until
 * all are whole: where a task is tried twice, or its worker is thought dead and is not, neither
 * attempt sees the other's files.
 */
final class PartFiles implements AutoCloseable {
  private static final String FILES = "files";

  private final String tables;
  private final String name;
  private final Configuration configuration;
  private final String attempt;
  private final Map<String, TableFile> open = new LinkedHashMap<>();

  PartFiles(String tables, String name, Configuration configuration) {
    this.tables = tables;
    this.name = name;
    this.configuration = configuration;
    this.attempt = Long.toString(TaskContext.get().taskAttemptId());
  }

  private Path unfinished(String table) {
    return new Path(tables + "/" + table, "." + name + ".attempt-" + attempt);
  }

  private Path finished(String table) {
    return new Path(tables + "/" + table, name);
  }

  /** Opens the file of a table. */
  void create(String table, TableSchema schema, Supplier<Map<String, String>> remarks)
      throws IOException {
    open.put(table, TableFile.create(unfinished(table), schema, remarks, configuration));
  }

  void write(String table, List<TableRow> rows) throws IOException {
    TableFile file = open.get(table);
    for (TableRow row : rows) {
      file.write(row);
    }
  }

  /** Closes the files and gives them their names. */
  Map<String, TableFile.Written> finish() throws IOException {
    Map<String, TableFile.Written> written = new LinkedHashMap<>();
    for (Map.Entry<String, TableFile> entry : open.entrySet()) {
      entry.getValue().close();
      written.put(entry.getKey(), entry.getValue().written());
    }
    open.clear();
    nameAll();
    return written;
  }

  /** Takes the files of an earlier run over as they are. */
  Map<String, TableFile.Written> copyOf(EarlierReading.Part part) throws IOException {
    FileSystem fileSystem = new Path(tables).getFileSystem(configuration);
    Map<String, TableFile.Written> written = new LinkedHashMap<>();
    for (String table : TableSchemas.OF_READING) {
      Path from = part.file(table);
      FileUtil.copy(
          fileSystem, from, fileSystem, unfinished(table), false, true, configuration);
      written.put(table, TableFile.written(from, configuration));
    }
    nameAll();
    return written;
  }

  /** Table files comes last: a part with a file there is whole. */
  private void nameAll() throws IOException {
    FileSystem fileSystem = new Path(tables).getFileSystem(configuration);
    List<String> order = new ArrayList<>(TableSchemas.OF_READING);
    order.remove(FILES);
    order.add(FILES);
    for (String table : order) {
      Path to = finished(table);
      if (!fileSystem.rename(unfinished(table), to)) {
        // An attempt before this one came to its end: what it wrote is the same.
        fileSystem.delete(to, false);
        if (!fileSystem.rename(unfinished(table), to)) {
          throw new IOException("cannot rename " + unfinished(table) + " to " + to);
        }
      }
    }
  }

  /** Gives up what is open. */
  @Override
  public void close() throws IOException {
    if (!open.isEmpty()) {
      FileSystem fileSystem = new Path(tables).getFileSystem(configuration);
      for (Map.Entry<String, TableFile> entry : open.entrySet()) {
        try {
          entry.getValue().close();
        } catch (IOException e) {
          // The attempt has failed already, and for the reason that is being told.
        }
        fileSystem.delete(unfinished(entry.getKey()), false);
      }
    }
  }
}
