package phrasecensus.store;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Supplier;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.ChecksumException;
import org.apache.hadoop.fs.CommonPathCapabilities;
import org.apache.hadoop.fs.FileAlreadyExistsException;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import phrasecensus.store.parquet.TableFile;
import phrasecensus.tables.FileList;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSchemas;

/**
 * The files of one part, one a table, while a task writes them. Each has a name of the attempt
 * until all are whole: where a task is tried twice, or its worker is thought dead and is not,
 * neither attempt sees the other's files. Object stores show nothing of a file before it is closed,
 * and would copy one to rename it; where one can also be given up, each has its name from the
 * start, and two attempts put the same content there.
 */
public final class PartFiles implements AutoCloseable {
  private static final String FILES = "files";

  /** Table files comes last: a part with a file there is whole. */
  private static final List<String> ORDER = order();

  private final String tables;
  private final String name;
  private final Configuration configuration;
  private final String attempt;
  private final FileSystem fileSystem;
  private final boolean namedAtOnce;
  private final Map<String, TableFile> open = new LinkedHashMap<>();

  /**
   * @param tables the folder with one folder a table
   * @param name of the part
   * @param attempt tells this attempt from all others
   */
  public PartFiles(String tables, String name, String attempt, Configuration configuration)
      throws IOException {
    this.tables = tables;
    this.name = name;
    this.configuration = configuration;
    this.attempt = attempt;
    Path folder = new Path(tables);
    this.fileSystem = folder.getFileSystem(configuration);
    this.namedAtOnce =
        fileSystem.hasPathCapability(folder, CommonPathCapabilities.ABORTABLE_STREAM);
  }

  private static List<String> order() {
    List<String> order = new ArrayList<>(TableSchemas.OF_READING);
    order.remove(FILES);
    order.add(FILES);
    return List.copyOf(order);
  }

  private Path unfinished(String table) {
    return namedAtOnce
        ? finished(table)
        : new Path(tables + "/" + table, "." + name + ".attempt-" + attempt);
  }

  private Path finished(String table) {
    return new Path(tables + "/" + table, name);
  }

  /** Opens the file of a table. */
  public void create(String table, TableSchema schema, Supplier<Map<String, String>> remarks)
      throws IOException {
    open.put(table, TableFile.create(unfinished(table), schema, remarks, configuration));
  }

  public void write(String table, List<TableRow> rows) throws IOException {
    TableFile file = open.get(table);
    for (TableRow row : rows) {
      file.write(row);
    }
  }

  /** Closes the files, gives them their names, forces them out and then says so in a list. */
  public Map<String, TableFile.Stored> finish() throws IOException {
    Map<String, TableFile.Stored> stored = new LinkedHashMap<>();
    for (String table : ORDER) {
      stored.put(table, open.get(table).stored());
    }
    open.clear();
    nameAll();
    record(stored);
    return stored;
  }

  /**
   * Takes the files of an earlier run over as they are.
   *
   * @param sums SHA-256 that each must have, by table
   * @return null, and nothing is taken over, where one has another
   */
  public Map<String, TableFile.Stored> copyOf(EarlierReading.Part part, Map<String, String> sums)
      throws IOException {
    Map<String, TableFile.Stored> stored = new LinkedHashMap<>();
    for (String table : ORDER) {
      Path from = part.file(table);
      FileCopy copy = copy(from, unfinished(table));
      if (copy == null || !copy.sha256().equals(sums.get(table))) {
        for (String each : ORDER) {
          fileSystem.delete(unfinished(each), false);
        }
        return null;
      }
      stored.put(
          table,
          new TableFile.Stored(
              TableFile.written(unfinished(table), copy.end(), configuration),
              copy.sha256(),
              copy.bytes()));
    }
    nameAll();
    record(stored);
    return stored;
  }

  private FileCopy copy(Path from, Path to) throws IOException {
    try {
      return FileCopy.of(fileSystem, from, to);
    } catch (FileNotFoundException | ChecksumException e) {
      return null;
    }
  }

  /** Without this list, written when the files are on the disk, a later run takes nothing over. */
  private void record(Map<String, TableFile.Stored> stored) throws IOException {
    List<Path> files = new ArrayList<>();
    Map<String, String> sums = new TreeMap<>();
    Path folder = new Path(tables);
    for (Map.Entry<String, TableFile.Stored> entry : stored.entrySet()) {
      files.add(finished(entry.getKey()));
      sums.put(folder.getName() + "/" + entry.getKey() + "/" + name, entry.getValue().sha256());
    }
    Durable.force(fileSystem, files);
    Durable.write(
        fileSystem,
        new Path(new Path(folder.getParent(), OwnFiles.PARTS), name + ".sha256"),
        FileList.of(FileList.PART, sums).bytes());
  }

  private void nameAll() throws IOException {
    if (namedAtOnce) {
      return;
    }
    for (String table : ORDER) {
      if (!isNamed(table)) {
        // An attempt before this one came to its end: what it wrote is the same.
        fileSystem.delete(finished(table), false);
        if (!isNamed(table)) {
          throw new IOException("cannot rename " + unfinished(table) + " to " + finished(table));
        }
      }
    }
  }

  /** Some file systems say no where there is such a file, some throw. */
  private boolean isNamed(String table) throws IOException {
    try {
      return fileSystem.rename(unfinished(table), finished(table));
    } catch (FileAlreadyExistsException e) {
      return false;
    }
  }

  /** Gives up what is open. */
  @Override
  public void close() throws IOException {
    for (Map.Entry<String, TableFile> entry : open.entrySet()) {
      if (namedAtOnce) {
        entry.getValue().abandon();
      } else {
        try {
          entry.getValue().close();
        } catch (IOException e) {
          // The attempt has failed already, and for the reason that is being told.
        }
        fileSystem.delete(unfinished(entry.getKey()), false);
      }
    }
    open.clear();
  }
}
