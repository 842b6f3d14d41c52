package phrasecensus.spark;

import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.CommonPathCapabilities;
import org.apache.hadoop.fs.FileAlreadyExistsException;
import org.apache.hadoop.fs.FileStatus;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.FileUtil;
import org.apache.hadoop.fs.Path;
import org.apache.hadoop.ipc.RemoteException;
import phrasecensus.spark.parquet.ParquetTables;
import phrasecensus.spark.parquet.TableFile;
import phrasecensus.tables.InputException;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableSchemas;

/**
 * The folder of a study: {@code manifest.json}, {@code tables/}, {@code report/}.
 *
 * <p>New tables are written aside in {@code .next/}. When all of them are there and checked, a mark
 * says so, and only then the old ones give way, by renaming. A run that dies before the mark leaves
 * the old study as it was; one that dies after it is finished by the next command, since every step
 * after the mark can be taken again. What a killed run has read lies in {@code .left/} until the
 * next one is finished, which takes it over.
 */
public final class StudyFolder implements AutoCloseable {
  private static final String NEXT = ".next";
  private static final String PREVIOUS = ".previous";
  private static final String COMPLETE = "COMPLETE";
  private static final String LEFT = ".left";
  private static final String LOCK = ".lock";
  private static final String TABLES = "tables";
  private static final String REPORT = "report";
  private static final String NEXT_REPORT = ".report-next";
  private static final String PREVIOUS_REPORT = ".report-previous";

  private final Path folder;
  private final FileSystem fileSystem;
  private final Configuration configuration;
  private boolean locked;
  private boolean made;
  private OutputStream lease;
  private volatile boolean keepUnfinished;
  private volatile boolean committed;

  private StudyFolder(Path folder, FileSystem fileSystem, Configuration configuration) {
    this.folder = folder;
    this.fileSystem = fileSystem;
    this.configuration = configuration;
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
      study.lock(location);
      study.recover();
      study.setAside();
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
      study.lock(location);
      study.recover();
      if (!study.fileSystem.exists(study.manifestFile())) {
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
    if (fileSystem.exists(manifestFile()) && fileSystem.exists(tables())) {
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
      Path path = new Path(location);
      FileSystem fileSystem = path.getFileSystem(configuration);
      // Checksum files beside every file help nobody here: digests are in the manifest.
      fileSystem.setWriteChecksum(false);
      return new StudyFolder(fileSystem.makeQualified(path), fileSystem, configuration);
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
    return new Configuration();
  }

  private boolean isEmpty() throws IOException {
    for (FileStatus status : fileSystem.listStatus(folder)) {
      if (!status.getPath().getName().startsWith(".")) {
        return false;
      }
    }
    return true;
  }

  private boolean isOurs() throws IOException {
    for (String own : new String[] {NEXT, LEFT, LOCK}) {
      if (fileSystem.exists(new Path(folder, own))) {
        return true;
      }
    }
    if (!fileSystem.exists(manifestFile())) {
      return false;
    }
    try {
      return manifest().program().startsWith(Program.NAME);
    } catch (InputException e) {
      return false;
    }
  }

  private void lock(String location) throws IOException {
    Path lock = new Path(folder, LOCK);
    boolean leased = isLeased(lock);
    for (int attempt = 0; ; attempt++) {
      try {
        if (leased) {
          lease = fileSystem.create(lock, false);
        } else {
          try (OutputStream stream = fileSystem.create(lock, false)) {
            stream.write(
                Long.toString(ProcessHandle.current().pid()).getBytes(StandardCharsets.UTF_8));
          }
        }
        locked = true;
        return;
      } catch (FileAlreadyExistsException | RemoteException e) {
        if (attempt > 0 || isHeld(lock, leased)) {
          throw new InputException(
              "Cannot write the study into "
                  + location
                  + ": another run is working on it. Wait for it to end; "
                  + (leased
                      ? "where one was killed, the file system lets go after a minute."
                      : "if there is none, delete " + lock.toUri().getPath() + "."),
              e);
        }
        fileSystem.delete(lock, false);
      }
    }
  }

  /** Whether a file that is open for writing is held for as long as its writer lives, as on HDFS. */
  private boolean isLeased(Path lock) throws IOException {
    return fileSystem.hasPathCapability(lock, CommonPathCapabilities.LEASE_RECOVERABLE);
  }

  /** A lock whose writer is gone was left by a run that was killed. */
  private boolean isHeld(Path lock, boolean leased) throws IOException {
    if (leased) {
      try {
        // Refused as long as another writer lives.
        fileSystem.append(lock).close();
        return false;
      } catch (IOException e) {
        return fileSystem.exists(lock);
      }
    }
    if (!fileSystem.getUri().getScheme().equals("file")) {
      return true;
    }
    String owner;
    try (var stream = fileSystem.open(lock)) {
      owner = new String(stream.readAllBytes(), StandardCharsets.UTF_8).strip();
    }
    return owner.matches("\\d{1,18}")
        && Long.parseLong(owner) != ProcessHandle.current().pid()
        && ProcessHandle.of(Long.parseLong(owner)).map(ProcessHandle::isAlive).orElse(false);
  }

  private void recover() throws IOException {
    Path next = new Path(folder, NEXT);
    if (fileSystem.exists(new Path(next, COMPLETE))) {
      makeCurrent();
    }
    if (fileSystem.exists(new Path(folder, NEXT_REPORT))) {
      makeReportCurrent();
    } else if (!fileSystem.exists(new Path(folder, REPORT))
        && fileSystem.exists(new Path(folder, PREVIOUS_REPORT))) {
      rename(new Path(folder, PREVIOUS_REPORT), new Path(folder, REPORT));
    }
  }

  /** Keeps what a killed run has read where the next one finds it. */
  private void setAside() throws IOException {
    Path next = new Path(folder, NEXT);
    Path left = new Path(folder, LEFT);
    if (fileSystem.exists(new Path(next, TABLES))) {
      fileSystem.delete(left, true);
      rename(next, left);
    } else {
      fileSystem.delete(next, true);
    }
  }

  private void makeCurrent() throws IOException {
    Path next = new Path(folder, NEXT);
    Path previous = new Path(folder, PREVIOUS);
    if (fileSystem.exists(new Path(next, TABLES))) {
      if (fileSystem.exists(tables())) {
        fileSystem.delete(previous, true);
        rename(tables(), previous);
      }
      rename(new Path(next, TABLES), tables());
    }
    Path manifest = new Path(next, Manifest.FILE_NAME);
    if (fileSystem.exists(manifest)) {
      fileSystem.delete(manifestFile(), false);
      rename(manifest, manifestFile());
    }
    fileSystem.delete(next, true);
    fileSystem.delete(previous, true);
    fileSystem.delete(new Path(folder, LEFT), true);
  }

  private void rename(Path from, Path to) throws IOException {
    if (!fileSystem.rename(from, to)) {
      throw new IOException("cannot rename " + from + " to " + to);
    }
  }

  /** Where new tables are written before they are made current. */
  Path nextTables() {
    return new Path(new Path(folder, NEXT), TABLES);
  }

  /** The folder with one folder a table. */
  public Path tables() {
    return new Path(folder, TABLES);
  }

  /** The current tables. */
  public ParquetTables source() {
    return new ParquetTables(tables(), configuration);
  }

  private Path manifestFile() {
    return new Path(folder, Manifest.FILE_NAME);
  }

  /** The manifest of the current tables. */
  public Manifest manifest() {
    try (var stream = fileSystem.open(manifestFile())) {
      return Manifest.parse(manifestFile().toString(), stream.readAllBytes());
    } catch (IOException e) {
      throw new InputException("Cannot read " + manifestFile() + ": " + reason(e) + ".", e);
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
    Path next = new Path(folder, NEXT);
    verify(manifest);
    write(new Path(next, Manifest.FILE_NAME), manifest.json());
    write(new Path(next, COMPLETE), "");
    makeCurrent();
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

  private void write(Path file, String text) throws IOException {
    try (OutputStream stream = fileSystem.create(file, true)) {
      stream.write(text.getBytes(StandardCharsets.UTF_8));
    }
  }

  /** Puts a report made in a local folder in the place of the study's report. */
  public String publishReport(java.nio.file.Path local) {
    Path aside = new Path(folder, ".report-unfinished");
    try {
      fileSystem.delete(aside, true);
      FileUtil.copy(local.toFile(), fileSystem, aside, false, configuration);
      rename(aside, new Path(folder, NEXT_REPORT));
      makeReportCurrent();
      return location() + "/" + REPORT;
    } catch (IOException e) {
      throw new InputException("Cannot write the report: " + reason(e) + ".", e);
    }
  }

  private void makeReportCurrent() throws IOException {
    Path report = new Path(folder, REPORT);
    Path previous = new Path(folder, PREVIOUS_REPORT);
    if (fileSystem.exists(report)) {
      fileSystem.delete(previous, true);
      rename(report, previous);
    }
    rename(new Path(folder, NEXT_REPORT), report);
    fileSystem.delete(previous, true);
  }

  /** Where tables lie whose rows may be taken over: the current ones, those of a killed run. */
  List<Path> earlierTables() {
    return List.of(tables(), new Path(new Path(folder, LEFT), TABLES));
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
    return folder.toUri().getScheme().equals("file")
        ? folder.toUri().getPath()
        : folder.toString();
  }

  /** Gives the folder free. What a run wrote aside and did not finish is deleted. */
  @Override
  public synchronized void close() {
    if (locked) {
      try {
        if (!keepUnfinished && !fileSystem.exists(new Path(new Path(folder, NEXT), COMPLETE))) {
          fileSystem.delete(new Path(folder, NEXT), true);
        }
        if (lease != null) {
          lease.close();
        }
        fileSystem.delete(new Path(folder, LOCK), false);
        if (made && fileSystem.listStatus(folder).length == 0) {
          fileSystem.delete(folder, false);
        }
      } catch (IOException e) {
        // The lock names this process, so the next run finds that its owner is gone.
      }
      locked = false;
    }
  }
}
