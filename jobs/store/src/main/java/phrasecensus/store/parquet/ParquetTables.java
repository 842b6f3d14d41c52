package phrasecensus.store.parquet;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.Iterator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Set;
import java.util.Spliterator;
import java.util.Spliterators;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileStatus;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import org.apache.parquet.HadoopReadOptions;
import org.apache.parquet.hadoop.ParquetFileReader;
import org.apache.parquet.hadoop.metadata.FileMetaData;
import org.apache.parquet.hadoop.util.HadoopInputFile;
import org.apache.parquet.io.ParquetDecodingException;
import org.apache.parquet.schema.Type;
import phrasecensus.tables.ColumnType;
import phrasecensus.tables.InputException;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSchemas;
import phrasecensus.tables.TableSource;

/**
 * The tables of a study folder, read row by row in the driver: whole for what fits on a page, as a
 * stream for what is counted. Several threads may read; the tables may not change meanwhile.
 */
public final class ParquetTables implements TableSource {
  /** Tables with smaller files are held once read: a report asks for them again and again. */
  private static final long MOST_BYTES_HELD = 2L << 20;

  private final Path tables;
  private final Configuration configuration;
  private final Map<String, TableSchema> schemas = new ConcurrentHashMap<>();
  private final Map<String, List<TableRow>> held = new ConcurrentHashMap<>();

  /** The files of tables that were asked for: on an object store a listing is a request. */
  private final Map<String, List<FileStatus>> listed = new ConcurrentHashMap<>();

  private volatile TreeMap<String, String> firstSolos;

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
      String role = equal.getOrDefault("role", "");
      List<FileStatus> files =
          files(table, role.isEmpty() ? Map.of() : Map.of("role", Set.of(role)));
      long bytes = files.stream().mapToLong(FileStatus::getLen).sum();
      Map<String, String> rest = new TreeMap<>(equal);
      boolean hold = bytes <= MOST_BYTES_HELD;
      if (hold) {
        String name = table + " " + role;
        List<TableRow> all = held.get(name);
        if (all == null) {
          Map<String, String> ofRole = new TreeMap<>(equal);
          ofRole.keySet().retainAll(List.of("role"));
          all = sorted(table, files, ofRole);
          held.put(name, all);
        }
        rest.remove("role");
        return rest.isEmpty()
            ? new ArrayList<>(all)
            : all.stream().filter(row -> has(row, rest)).collect(Collectors.toList());
      }
      return sorted(table, files, equal);
    } catch (IOException e) {
      throw cannotRead(table, e);
    }
  }

  @Override
  public Stream<TableRow> stream(
      String table, List<String> columns, Map<String, Set<String>> among) {
    if (among.values().stream().anyMatch(Set::isEmpty)) {
      return Stream.empty();
    }
    Set<String> scanned = new LinkedHashSet<>(columns);
    scanned.addAll(among.keySet());
    try {
      RowsOfFiles rows =
          new RowsOfFiles(
              files(table, among).iterator(), schema(table).only(List.copyOf(scanned)), among);
      return StreamSupport.stream(
              Spliterators.spliteratorUnknownSize(rows, Spliterator.ORDERED | Spliterator.NONNULL),
              false)
          .onClose(rows::close);
    } catch (IOException e) {
      throw cannotRead(table, e);
    }
  }

  /** The rows of files one after the other, one file open at a time. */
  private final class RowsOfFiles implements Iterator<TableRow> {
    private final Iterator<FileStatus> files;
    private final TableSchema schema;
    private final Map<String, Set<String>> among;
    private RowScan scan;
    private TableRow next;

    RowsOfFiles(Iterator<FileStatus> files, TableSchema schema, Map<String, Set<String>> among) {
      this.files = files;
      this.schema = schema;
      this.among = among;
    }

    @Override
    public boolean hasNext() {
      try {
        while (next == null && (scan != null || files.hasNext())) {
          if (scan == null) {
            scan = RowScan.open(files.next(), schema, among, configuration);
          }
          next = scan.next();
          if (next == null) {
            close();
          }
        }
        return next != null;
      } catch (InputException e) {
        throw e;
      } catch (IOException | RuntimeException e) {
        // Parquet's library tells of damage in any of these.
        throw cannotRead(schema.table(), e);
      }
    }

    @Override
    public TableRow next() {
      if (!hasNext()) {
        throw new NoSuchElementException();
      }
      TableRow row = next;
      next = null;
      return row;
    }

    void close() {
      if (scan != null) {
        try {
          scan.close();
        } catch (IOException e) {
          throw cannotRead(schema.table(), e);
        } finally {
          scan = null;
        }
      }
    }
  }

  @Override
  public List<TableRow> first(String table, int most) {
    List<TableRow> first = new ArrayList<>();
    TableSchema schema = schema(table);
    InputAtATime inputs =
        new InputAtATime(
            schema,
            row -> {
              if (first.size() < most) {
                first.add(row);
              }
            });
    try {
      for (FileStatus file : files(table)) {
        try (RowScan scan = RowScan.open(file, schema, Map.of(), configuration)) {
          for (TableRow row = null; first.size() < most && (row = scan.next()) != null; ) {
            inputs.take(row);
          }
        }
      }
      inputs.finish();
      return List.copyOf(first);
    } catch (InputException e) {
      throw e;
    } catch (IOException | RuntimeException e) {
      throw cannotRead(table, e);
    }
  }

  private InputException cannotRead(String table, Exception cause) {
    return new InputException(
        "Cannot read table " + table + " in " + folder() + ": " + cause.getMessage(), cause);
  }

  /**
   * Files of a table that can hold rows with certain texts: what reading makes lies in files named
   * for the role, and what belongs to a solo in files of one name.
   */
  private List<FileStatus> files(String table, Map<String, Set<String>> among) throws IOException {
    List<FileStatus> files = files(table);
    Set<String> roles = among.getOrDefault("role", Set.of());
    if (roles.size() == 1) {
      String role = roles.iterator().next();
      files.removeIf(file -> isOfOtherRole(file.getPath().getName(), role));
    }
    if (among.containsKey("solo_id") && TableSchemas.OF_READING.contains(table)) {
      Set<String> parts = partsOf(among.get("solo_id"));
      if (!parts.isEmpty()) {
        files.removeIf(file -> !parts.contains(file.getPath().getName()));
      }
    }
    return files;
  }

  @Override
  public List<TableRow> rows(String table, String column, Set<String> texts) {
    if (texts.isEmpty()) {
      return List.of();
    }
    try {
      List<TableRow> rows = new ArrayList<>();
      TableSchema schema = schema(table);
      Map<String, Set<String>> among = Map.of(column, texts);
      for (FileStatus file : files(table, among)) {
        readFile(file, schema, among, rows::add);
      }
      rows.sort(byKey(TableSchemas.named(table).key()));
      return rows;
    } catch (IOException e) {
      throw cannotRead(table, e);
    }
  }

  /**
   * The files in which solos lie: reading gives those of a solo the same name in every table, and
   * the files of a role are in the order of their solos. Empty when the solos are in none.
   */
  private Set<String> partsOf(Set<String> soloIds) throws IOException {
    if (firstSolos == null) {
      TreeMap<String, String> firsts = new TreeMap<>();
      for (FileStatus file : files("solos")) {
        try (ColumnScan scan = ColumnScan.open(file, List.of("solo_id"), configuration)) {
          Object[] first = scan.next();
          if (first != null) {
            firsts.put((String) first[0], file.getPath().getName());
          }
        }
      }
      firstSolos = firsts;
    }
    Set<String> parts = new HashSet<>();
    for (String soloId : soloIds) {
      Map.Entry<String, String> part = firstSolos.floorEntry(soloId);
      if (part != null) {
        parts.add(part.getValue());
      }
    }
    return parts;
  }

  private static boolean has(TableRow row, Map<String, String> equal) {
    for (Map.Entry<String, String> entry : equal.entrySet()) {
      if (!entry.getValue().equals(row.text(entry.getKey()))) {
        return false;
      }
    }
    return true;
  }

  private List<TableRow> sorted(String table, List<FileStatus> files, Map<String, String> equal)
      throws IOException {
    List<TableRow> rows = new ArrayList<>();
    TableSchema schema = schema(table);
    Map<String, Set<String>> among = new TreeMap<>();
    equal.forEach((column, text) -> among.put(column, Set.of(text)));
    for (FileStatus file : files) {
      readFile(file, schema, among, rows::add);
    }
    rows.sort(byKey(TableSchemas.named(table).key()));
    return rows;
  }

  /**
   * What a file of a table holds, counted and digested row by row.
   *
   * @throws IOException or what Parquet's library throws, if it cannot be read
   */
  public Manifest.Part part(String table, String file) throws IOException {
    RowDigest digest = new RowDigest();
    Path path = new Path(new Path(tables, table), file);
    FileStatus status = path.getFileSystem(configuration).getFileStatus(path);
    readFile(status, schema(table, status), Map.of(), digest::add);
    return new Manifest.Part(digest.rows(), digest.hex());
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
    TableSchema schema = schema(table);
    InputAtATime inputs = new InputAtATime(schema, into);
    for (FileStatus file : files(table)) {
      try {
        readFile(file, schema, Map.of(), inputs);
      } catch (ParquetDecodingException | IllegalArgumentException e) {
        throw cannotRead(table, e);
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
      TableSchema schema = schemas.get(table);
      if (schema == null) {
        // A commit writes all files of a table with one schema.
        schema = schema(table, files(table).get(0));
        schemas.put(table, schema);
      }
      return schema;
    } catch (IOException e) {
      throw cannotRead(table, e);
    }
  }

  /** The folder as a message names it: a path where it lies on this machine, else an address. */
  private String folder() {
    String scheme = tables.toUri().getScheme();
    return scheme == null || scheme.equals("file") ? tables.toUri().getPath() : tables.toString();
  }

  private static boolean isOfOtherRole(String name, String role) {
    int dash = name.indexOf('-');
    return !name.startsWith("part-") && dash > 0 && !name.substring(0, dash).equals(role);
  }

  private List<FileStatus> files(String table) throws IOException {
    List<FileStatus> files = listed.get(table);
    if (files == null) {
      files = List.copyOf(list(table));
      listed.put(table, files);
    }
    return new ArrayList<>(files);
  }

  private List<FileStatus> list(String table) throws IOException {
    Path folder = new Path(tables, table);
    FileSystem fileSystem = folder.getFileSystem(configuration);
    List<FileStatus> files = new ArrayList<>();
    try {
      // Not asked first whether it is there: on an object store that would be two requests more.
      FileStatus[] statuses = fileSystem.listStatus(folder);
      Arrays.sort(statuses, Comparator.comparing(status -> status.getPath().getName()));
      for (FileStatus status : statuses) {
        if (status.getPath().getName().endsWith(".parquet")) {
          files.add(status);
        }
      }
    } catch (FileNotFoundException e) {
      // Told below.
    }
    if (files.isEmpty()) {
      throw new InputException(
          "Cannot find table "
              + table
              + " in "
              + folder()
              + ". Run 'phrase-census study' (or the step that makes it) first.");
    }
    return files;
  }

  private static InputException damaged(String table, Path file, Exception cause) {
    return new InputException(
        "Cannot read table "
            + table
            + ": "
            + file.toUri().getPath()
            + " is damaged, or no Parquet file. Run the study again.",
        cause);
  }

  /**
   * Holds what the files say of themselves against a manifest, without looking at a row. Tables
   * that later steps make anew may be of another version, which is for the step to judge that reads
   * them.
   *
   * @param expected the tables of the manifest
   * @throws InputException if one is missing, damaged or another one, or if this program would
   *     misunderstand what reading made
   */
  public void check(Map<String, Manifest.Table> expected) {
    Map<String, List<FileStatus>> files = new TreeMap<>();
    try {
      for (String table : expected.keySet()) {
        files.put(table, files(table));
      }
    } catch (IOException e) {
      throw new InputException("Cannot read the tables in " + folder() + ": " + e.getMessage(), e);
    }
    files.entrySet().parallelStream()
        .forEach(entry -> check(entry.getKey(), entry.getValue(), expected.get(entry.getKey())));
  }

  private void check(String table, List<FileStatus> files, Manifest.Table expected) {
    TableFile.Written found = TableFile.Written.NOTHING;
    Map<String, Manifest.Part> parts = new TreeMap<>();
    for (FileStatus file : files) {
      try {
        Map<String, String> remarks = TableFile.remarks(file.getPath(), configuration);
        String version = remarks.get(TableFile.VERSION_KEY);
        if (!Integer.toString(TableSchemas.named(table).version()).equals(version)) {
          if (TableSchemas.OF_READING.contains(table)) {
            throw otherVersion(table, version);
          }
          return;
        }
        TableFile.Written written = TableFile.written(file.getPath(), remarks);
        found = found.plus(written);
        parts.put(file.getPath().getName(), new Manifest.Part(written.rows(), written.digest()));
      } catch (InputException e) {
        throw e;
      } catch (IOException | RuntimeException e) {
        throw damaged(table, file.getPath(), e);
      }
    }
    if (found.rows() != expected.rows()
        || !found.digest().equals(expected.digest())
        || !parts.equals(expected.parts())) {
      throw new InputException(
          "Cannot use table "
              + table
              + " in "
              + folder()
              + ": it is not the one that the manifest describes ("
              + found.rows()
              + " rows where "
              + expected.rows()
              + " were written, or other values). Run the study again.");
    }
  }

  private InputException otherVersion(String table, String version) {
    return new InputException(
        "Cannot use table "
            + table
            + " in "
            + folder()
            + (version == null
                ? ": another program wrote it"
                : ": it was written with schema version "
                    + version
                    + ", this program has version "
                    + TableSchemas.named(table).version())
            + ". Run the study again.");
  }

  private TableSchema schema(String table, FileStatus file) throws IOException {
    FileMetaData metadata;
    try (ParquetFileReader reader =
        ParquetFileReader.open(
            HadoopInputFile.fromStatus(file, configuration),
            HadoopReadOptions.builder(configuration).build())) {
      metadata = reader.getFooter().getFileMetaData();
    } catch (RuntimeException e) {
      throw damaged(table, file.getPath(), e);
    }
    TableSchema schema = TableSchemas.named(table);
    String version = metadata.getKeyValueMetaData().get(TableFile.VERSION_KEY);
    if (!Integer.toString(schema.version()).equals(version)) {
      throw otherVersion(table, version);
    }
    if (schema.isOpenForMetadata()) {
      Map<String, ColumnType> further = new TreeMap<>();
      for (Type field : metadata.getSchema().getFields()) {
        if (!schema.has(field.getName())) {
          further.put(field.getName(), TableFile.columnType(field));
        }
      }
      schema = schema.withMetadata(further);
    }
    return schema;
  }

  private void readFile(
      FileStatus file, TableSchema schema, Map<String, Set<String>> among, RowTaker into)
      throws IOException {
    try (RowScan scan = RowScan.open(file, schema, among, configuration)) {
      for (TableRow row = scan.next(); row != null; row = scan.next()) {
        into.take(row);
      }
    }
  }

  /** Orders rows of one table by the columns of its key. */
  public static Comparator<TableRow> byKey(List<String> key) {
    return new KeyOrder(key);
  }

  /** Looks the columns up once, not once a comparison: sorting is much of reading a small table. */
  private static final class KeyOrder implements Comparator<TableRow> {
    private final List<String> key;
    private TableSchema schema;
    private int[] places = {};

    KeyOrder(List<String> key) {
      this.key = key;
    }

    @Override
    @SuppressWarnings("unchecked")
    public int compare(TableRow first, TableRow second) {
      if (first.schema() != schema) {
        schema = first.schema();
        places = key.stream().mapToInt(schema::place).toArray();
      }
      for (int place : places) {
        Object a = first.value(place);
        Object b = second.value(place);
        // Rows of one solo share its text.
        int order =
            a == b
                ? 0
                : a == null || b == null
                    ? Boolean.compare(a != null, b != null)
                    : ((Comparable<Object>) a).compareTo(b);
        if (order != 0) {
          return order;
        }
      }
      return 0;
    }
  }
}
