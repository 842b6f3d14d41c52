package phrasecensus.spark;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileStatus;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.FileUtil;
import org.apache.hadoop.fs.Path;
import phrasecensus.spark.parquet.ParquetTables;
import phrasecensus.spark.parquet.TableFile;
import phrasecensus.tables.InputException;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableSchemas;

/**
 * The folder of a study: {@code manifest.json}, {@code tables/}, {@code report/}, or what names them
 * on stores that cannot rename a folder in one step.
 *
 * <p>New tables are written aside, held against their manifest, and made current in one step; {@link
 * StudyPlaces} knows how.
 */
public final class StudyFolder implements AutoCloseable {
  private static final String OF_SPARK = "spark.hadoop.";

  private final Path folder;
  private final FileSystem fileSystem;
  private final Configuration configuration;
  private final StudyPlaces places;
  private StudyLock lock;
  private boolean made;
  private volatile boolean keepUnfinished;
  private volatile boolean committed;

  private StudyFolder(
      Path folder, FileSystem fileSystem, Configuration configuration, StudyPlaces places) {
    this.folder = folder;
    this.fileSystem = fileSystem;
    this.configuration = configuration;
    this.places = places;
  }

  /**
   * Opens a folder for writing a study into: a new or empty one, or one that holds a study.
   *
   * @throws InputException if it holds something else, cannot be written, or another run has it
   */
  public static StudyFolder forWriting(String location, Configuration configuration) {
    StudyFolder study = at(location, configuration);
    try {
      if (study.fileSystem.exists(study.folder)) {
        if (!study.fileSystem.getFileStatus(study.folder).isDirectory()) {
          throw new InputException(
              "Cannot write the study into " + location + ": it is a file, not a folder.");
        }
        if (!study.isEmpty() && !study.isOurs()) {
          throw new InputException(
              "Cannot write the study into "
                  + location
                  + ": the folder is not empty and holds no study of this program. Nothing was"
                  + " touched; name a new or empty folder with --into.");
        }
      } else {
        study.fileSystem.mkdirs(study.folder);
        study.made = true;
      }
      study.lock = StudyLock.of(study.folder, study.fileSystem, location);
      study.places.recover();
      study.places.setAside();
      return study;
    } catch (IOException e) {
      study.close();
      throw new InputException(
          "Cannot write the study into " + location + ": " + reason(e) + ".", e);
    }
  }

  /**
   * Opens a folder that holds a finished study.
   *
   * @throws InputException if it holds none, one that is not whole, or one of which this program
   *     would misunderstand what reading made
   */
  public static StudyFolder finished(String location, Configuration configuration) {
    StudyFolder study = at(location, configuration);
    try {
      if (!study.fileSystem.exists(study.folder) || !study.isOurs()) {
        study.refuseDamagedManifest(location);
        throw new InputException(
            "Cannot find a study in "
                + location
                + ". Make one first: 'phrase-census study CORPUS --into "
                + location
                + "'.");
      }
      study.lock = StudyLock.of(study.folder, study.fileSystem, location);
      study.places.recover();
      if (!study.fileSystem.exists(study.places.manifest())) {
        throw new InputException(
            "Cannot use the study in "
                + location
                + ": its first run was broken off before any table was finished. Run it again.");
      }
      study.checkTables(location);
      return study;
    } catch (IOException e) {
      study.close();
      throw new InputException("Cannot open the study in " + location + ": " + reason(e) + ".", e);
    } catch (InputException e) {
      study.close();
      throw e;
    }
  }

  /** Running it again would be refused as well: nothing says that the folder is ours. */
  private void refuseDamagedManifest(String location) throws IOException {
    if (fileSystem.exists(places.manifest()) && fileSystem.exists(tables())) {
      try {
        manifest();
      } catch (InputException e) {
        throw new InputException(
            "Cannot use the study in "
                + location
                + ": its manifest.json is damaged. Delete the folder and run the study again.",
            e);
      }
    }
  }

  /**
   * Holds the tables against the manifest by what their files say of themselves, before a command
   * works on half of them.
   */
  private void checkTables(String location) {
    Manifest manifest = manifest();
    int version = StatisticsCatalogue.builtIn().version();
    if (manifest.catalogueVersion() != version) {
      throw new InputException(
          "Cannot use the study in "
              + location
              + ": its statistics are of version "
              + manifest.catalogueVersion()
              + " of the catalogue, this program has version "
              + version
              + ". Run the study again.");
    }
    for (String table : manifest.tables().keySet()) {
      if (TableSchemas.all().stream().noneMatch(known -> known.table().equals(table))) {
        throw new InputException(
            "Cannot use the study in "
                + location
                + ": this program knows no table "
                + table
                + ", so another version wrote it. Run the study again.");
      }
    }
    source().check(manifest.tables());
  }

  private static StudyFolder at(String location, Configuration configuration) {
    try {
      Path path = InputPaths.of(location);
      FileSystem fileSystem = path.getFileSystem(configuration);
      // Checksum files beside every file help nobody here: digests are in the manifest.
      fileSystem.setWriteChecksum(false);
      Path folder = fileSystem.makeQualified(path);
      return new StudyFolder(
          folder, fileSystem, configuration, StudyPlaces.of(folder, fileSystem, configuration));
    } catch (IOException | IllegalArgumentException e) {
      throw new InputException("Cannot use the study folder " + location + ": " + reason(e) + ".", e);
    }
  }

  private static String reason(Exception e) {
    String message = e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
    String first = message.lines().findFirst().orElse(message).strip();
    return first.endsWith(".") ? first.substring(0, first.length() - 1) : first;
  }

  /** Hadoop's settings outside a Spark session: for commands that only read a study. */
  public static Configuration configuration() {
    SystemUser.ensureNamed();
    Configuration configuration = new Configuration();
    // As Spark takes them from the same place: a store's address and keys must not depend on
    // whether a command needs a session.
    System.getProperties()
        .forEach(
            (name, value) -> {
              if (name.toString().startsWith(OF_SPARK)) {
                configuration.set(name.toString().substring(OF_SPARK.length()), value.toString());
              }
            });
    return configuration;
  }

  private boolean isEmpty() throws IOException {
    return StudyPlaces.names(fileSystem, folder).stream().allMatch(name -> name.startsWith("."));
  }

  private boolean isOurs() throws IOException {
    Set<String> names = StudyPlaces.names(fileSystem, folder);
    if (PointedPlaces.areIn(names)
        || names.contains(StudyLock.FILE_NAME)
        || names.contains(RenamedPlaces.NEXT)
        || names.contains(RenamedPlaces.LEFT)) {
      return true;
    }
    if (!names.contains(Manifest.FILE_NAME)) {
      return false;
    }
    try {
      return manifest().program().startsWith(Program.NAME);
    } catch (InputException e) {
      return false;
    }
  }

  /** Where new tables are written before they are made current. */
  Path nextTables() {
    return places.nextTables();
  }

  /** The folder with one folder a table. */
  public Path tables() {
    return places.tables();
  }

  /** The folder with one folder a table, as a person writes it. */
  public String tablesLocation() {
    return address(tables());
  }

  /** The current tables. */
  public ParquetTables source() {
    return new ParquetTables(tables(), configuration);
  }

  /** The manifest of the current tables. */
  public Manifest manifest() {
    Path file = places.manifest();
    try (var stream = fileSystem.open(file)) {
      return Manifest.parse(file.toString(), stream);
    } catch (IOException e) {
      throw new InputException("Cannot read " + file + ": " + reason(e) + ".", e);
    }
  }

  /**
   * Takes files of the current tables over into the next ones.
   *
   * @return what they say that they hold
   */
  TableFile.Written keep(String table, String filePrefix) throws IOException {
    Path from = new Path(tables(), table);
    Path to = new Path(nextTables(), table);
    TableFile.Written kept = TableFile.Written.NOTHING;
    fileSystem.mkdirs(to);
    if (!fileSystem.exists(from)) {
      return kept;
    }
    for (FileStatus status : fileSystem.listStatus(from)) {
      String name = status.getPath().getName();
      if (name.startsWith(filePrefix) && name.endsWith(".parquet")) {
        kept = kept.plus(TableFile.written(status.getPath(), configuration));
        FileUtil.copy(
            fileSystem,
            status.getPath(),
            fileSystem,
            new Path(to, name),
            false,
            true,
            configuration);
      }
    }
    return kept;
  }

  /** Makes the tables that were written aside, and their manifest, the current ones. */
  void commit(Manifest manifest) throws IOException {
    places.checkUnchanged();
    verify(manifest);
    places.commit(manifest);
    committed = true;
  }

  /** Deletes what attempts that failed left, and holds the files against the manifest. */
  private void verify(Manifest manifest) throws IOException {
    List<Path> files = new ArrayList<>();
    for (String table : manifest.tables().keySet()) {
      for (FileStatus status : fileSystem.listStatus(new Path(nextTables(), table))) {
        if (status.getPath().getName().endsWith(".parquet")) {
          files.add(status.getPath());
        } else {
          fileSystem.delete(status.getPath(), false);
        }
      }
    }
    Map<String, TableFile.Written> found = new TreeMap<>();
    try {
      files.parallelStream()
          .map(file -> Map.entry(file.getParent().getName(), written(file)))
          .forEachOrdered(
              entry -> found.merge(entry.getKey(), entry.getValue(), TableFile.Written::plus));
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
    for (Map.Entry<String, Manifest.Table> entry : manifest.tables().entrySet()) {
      TableFile.Written written =
          found.getOrDefault(entry.getKey(), TableFile.Written.NOTHING);
      if (written.rows() != entry.getValue().rows()
          || !written.digest().equals(entry.getValue().digest())) {
        throw new IOException(
            "table " + entry.getKey() + " was not written whole; the study is as it was before");
      }
    }
  }

  private TableFile.Written written(Path file) {
    try {
      return TableFile.written(file, configuration);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * Puts a report made in a local folder in the place of the study's report.
   *
   * @return where it is now, as a person writes it
   */
  public String publishReport(java.nio.file.Path local) {
    try {
      return address(places.publish(local));
    } catch (IOException e) {
      throw new InputException("Cannot write the report: " + reason(e) + ".", e);
    }
  }

  /** Where tables lie whose rows may be taken over: the current ones, those of a killed run. */
  List<Path> earlierTables() {
    return places.earlierTables();
  }

  /** From now on nothing is deleted: the run is being stopped, and the next one will go on. */
  public void keepUnfinished() {
    keepUnfinished = true;
  }

  /** Whether the tables of this run are the current ones. */
  public boolean isCommitted() {
    return committed;
  }

  /** The folder, as a person writes it. */
  public String location() {
    return address(folder);
  }

  /** A path on this machine, else an address. */
  static String address(Path path) {
    String scheme = path.toUri().getScheme();
    return scheme == null || scheme.equals("file") ? path.toUri().getPath() : path.toString();
  }

  /** Gives the folder free. What a run wrote aside and did not finish is deleted. */
  @Override
  public synchronized void close() {
    if (lock != null) {
      try {
        if (!keepUnfinished) {
          places.giveUp();
        }
        lock.release();
        if (made && StudyPlaces.names(fileSystem, folder).isEmpty()) {
          fileSystem.delete(folder, false);
        }
      } catch (IOException e) {
        // The next run finds from the lock that its owner is gone.
      }
      lock = null;
    }
  }
}
