package phrasecensus.store;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.security.DigestOutputStream;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FSDataOutputStream;
import org.apache.hadoop.fs.FileStatus;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import phrasecensus.store.parquet.ParquetTables;
import phrasecensus.store.parquet.TableFile;
import phrasecensus.tables.FileList;
import phrasecensus.tables.FolderMarker;
import phrasecensus.tables.InputException;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.Sha256;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSchemas;
import phrasecensus.tables.export.DataPackage;

/**
 * The folder of a study: {@code manifest.json}, {@code tables/}, {@code report/}, or what names
 * them on stores that cannot rename a folder in one step.
 *
 * <p>New tables are written aside, held against their manifest, and made current in one step;
 * {@link StudyPlaces} knows how.
 */
public final class StudyFolder implements AutoCloseable {
  private static final String OF_SPARK = "spark.hadoop.";
  private static final String RUN_AGAIN =
      "Run 'phrase-census study' into it again, which reads anew what is damaged.";

  private final Path folder;
  private final FileSystem fileSystem;
  private final Configuration configuration;
  private final StudyPlaces places;
  private final WrittenTables written = new WrittenTables();
  private final List<String> remarks = new ArrayList<>();
  private FileList current;
  private StudyLock lock;
  private boolean made;
  private boolean marked;
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
        if (Stores.isFile(study.fileSystem, study.folder)) {
          throw new InputException(
              "Cannot write the study into " + location + ": it is a file, not a folder.");
        }
        study.refuseSomebodyElses(location);
      } else {
        study.places.makeFolder(study.folder);
        study.made = true;
      }
      study.lock = StudyLock.of(study.folder, study.fileSystem, location);
      study.mark();
      study.places.recover();
      study.refuseOthersTables("Cannot write the study into " + location);
      study.tellOfDamage();
      study.tellOfPromise();
      return study;
    } catch (IOException e) {
      study.close();
      throw new InputException(
          "Cannot write the study into " + location + ": " + reason(e) + ".", e);
    } catch (InputException e) {
      study.close();
      throw e;
    }
  }

  /** A folder that is not empty has to prove by what is in its files that it is a study's. */
  private void refuseSomebodyElses(String location) throws IOException {
    String refused = "Cannot write the study into " + location + ": ";
    switch (ownership()) {
      case STUDY, NOTHING -> {
        // Written by us before, or free.
      }
      case EXPORT ->
          throw new InputException(
              refused
                  + "the folder holds an export of a study, not a study. Nothing was touched; name"
                  + " a new or empty folder with --into.");
      case WORKING ->
          throw new InputException(
              refused
                  + "it is a folder inside of a study, which this program deletes when it is done"
                  + " with it. Name the study's own folder with --into.");
      default ->
          throw new InputException(
              refused
                  + "the folder is not empty and holds no study of this program. Nothing was"
                  + " touched; name a new or empty folder with --into.");
    }
  }

  /** Whose a folder is. */
  private enum Ownership {
    NOTHING,
    STUDY,
    EXPORT,
    WORKING,
    SOMEBODY_ELSE
  }

  private Ownership ownership() throws IOException {
    Map<String, FolderTree.Kind> names = FolderTree.names(fileSystem, folder);
    FolderMarker marker = OwnFiles.marker(fileSystem, folder);
    if (marker != null) {
      return switch (marker.kind()) {
        case STUDY -> Ownership.STUDY;
        case EXPORT -> Ownership.EXPORT;
        case WORKING -> Ownership.WORKING;
      };
    }
    boolean manifest = names.containsKey(Manifest.FILE_NAME) && hasManifest(folder);
    if (manifest && names.containsKey("SHA256SUMS") && names.containsKey(DataPackage.FILE_NAME)) {
      return Ownership.EXPORT;
    }
    if (manifest
        || OwnFiles.list(fileSystem, folder).isWhole(FileList.STUDY)
        || PointedPlaces.areIn(fileSystem, folder)) {
      return Ownership.STUDY;
    }
    // A marker that is none may be one that was damaged, or somebody's: it is not written over.
    return names.keySet().stream().allMatch(name -> name.startsWith("."))
            && (!names.containsKey(FolderMarker.FILE_NAME) || isMarkerBegun())
        ? Ownership.NOTHING
        : Ownership.SOMEBODY_ELSE;
  }

  private boolean isMarkerBegun() throws IOException {
    return OwnFiles.isBeginning(fileSystem, folder, FolderMarker.of(FolderMarker.Kind.STUDY));
  }

  private boolean hasManifest(Path where) throws IOException {
    try {
      return manifest(new Path(where, Manifest.FILE_NAME)).program().startsWith(Program.NAME);
    } catch (InputException e) {
      return false;
    }
  }

  /** Puts the marker of a study into the folder, on the disk before anything else is. */
  private void mark() throws IOException {
    FolderMarker marker = OwnFiles.marker(fileSystem, folder);
    if (marker != null && marker.kind() == FolderMarker.Kind.STUDY) {
      return;
    }
    Path file = new Path(folder, FolderMarker.FILE_NAME);
    if (FolderTree.isThere(fileSystem, file) && !isMarkerBegun()) {
      setAside(file);
    } else {
      marked = true;
    }
    Durable.write(fileSystem, file, FolderMarker.of(FolderMarker.Kind.STUDY).bytes());
    Durable.force(fileSystem, made ? List.of(folder, folder.getParent()) : List.of(folder));
  }

  private void setAside(Path file) throws IOException {
    Path kept = new Path(folder, RenamedPlaces.setAsideName());
    fileSystem.mkdirs(kept);
    if (!fileSystem.rename(file, new Path(kept, file.getName()))) {
      throw new IOException("cannot rename " + address(file));
    }
    remarks.add(
        file.getName()
            + " is damaged, or not this program's; it is kept in "
            + address(kept)
            + ". Delete it when nobody needs it.");
  }

  /** The list of the current manifest and tables. */
  private FileList list() throws IOException {
    if (current == null) {
      current = OwnFiles.list(fileSystem, places.current());
    }
    return current;
  }

  /**
   * Readers take every Parquet file in a folder of a table for data, so nobody else's may be there.
   */
  private void refuseOthersTables(String refused) throws IOException {
    FileList list = list();
    if (!list.isWhole(FileList.STUDY)) {
      return;
    }
    for (String path :
        OwnFiles.unlisted(fileSystem, places.current(), RenamedPlaces.TABLES, list)) {
      if (!OwnFiles.isHidden(path)) {
        throw new InputException(
            refused
                + ": "
                + path
                + " was put there by somebody else. Nothing was touched; move it elsewhere and run"
                + " the same command again.");
      }
    }
  }

  /** What is wrong with the files that the others are checked by; those are checked when used. */
  private void tellOfDamage() throws IOException {
    FileList list = list();
    boolean manifest = FolderTree.isThere(fileSystem, places.manifest());
    if (list.isWhole(FileList.STUDY)) {
      if (!OwnFiles.isAsListed(fileSystem, places.current(), list, Manifest.FILE_NAME)) {
        remarks.add(Manifest.FILE_NAME + " was gone, damaged or changed; the study is made anew.");
      }
    } else if (manifest || FolderTree.isThere(fileSystem, places.tables())) {
      remarks.add(
          FileList.FILE_NAME
              + ", the list of the study's files, was missing or damaged; the scores of those that"
              + " it does not prove were read anew.");
    }
  }

  private void tellOfPromise() throws IOException {
    if (!Durable.isForced(fileSystem, folder)) {
      remarks.add(
          "Files in "
              + location()
              + " cannot be forced to a disk from here; they are as safe as the store makes them"
              + " when it says that they are written.");
    }
  }

  /**
   * Opens a folder that holds a finished study.
   *
   * @throws InputException if it holds none, one that is not as it was written, or one of which
   *     this program would misunderstand what reading made
   */
  public static StudyFolder finished(String location, Configuration configuration) {
    return finished(location, configuration, false);
  }

  /**
   * The same for what only reads: a folder on a medium or with rights that let nobody write is read
   * without a lock, as no run can change it either.
   */
  public static StudyFolder finishedToRead(String location, Configuration configuration) {
    return finished(location, configuration, true);
  }

  private static StudyFolder finished(
      String location, Configuration configuration, boolean onlyRead) {
    StudyFolder study = at(location, configuration);
    try {
      study.refuseWithoutStudy(location);
      if (!onlyRead || study.isWritable()) {
        study.lock = StudyLock.of(study.folder, study.fileSystem, location);
        study.places.recover();
      } else {
        study.places.look();
      }
      if (study.list().equals(FileList.NONE) && !study.fileSystem.exists(study.places.manifest())) {
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

  /** False where a local disk says so; other file systems are asked by writing. */
  private boolean isWritable() {
    return !StudyPlaces.isLocal(fileSystem)
        || Files.isWritable(java.nio.file.Path.of(folder.toUri().getPath()));
  }

  private void refuseWithoutStudy(String location) throws IOException {
    Ownership ownership = fileSystem.exists(folder) ? ownership() : Ownership.NOTHING;
    if (ownership == Ownership.EXPORT) {
      throw new InputException(
          "Cannot use "
              + location
              + " as a study: it is an export of one. Name the study's own folder.");
    }
    if (ownership == Ownership.STUDY || ownership == Ownership.WORKING && hasManifest(folder)) {
      return;
    }
    throw new InputException(
        "Cannot find a study in "
            + location
            + ". Make one first: 'phrase-census study CORPUS --into "
            + location
            + "'.");
  }

  /** Holds manifest and tables, byte by byte, against the list that was written with them. */
  private void checkTables(String location) throws IOException {
    String refused = "Cannot use the study in " + location;
    FileList list = list();
    if (!list.isWhole(FileList.STUDY)) {
      throw new InputException(
          refused
              + ": "
              + FileList.FILE_NAME
              + ", the list of its files, is missing or damaged. "
              + RUN_AGAIN);
    }
    refuseOthersTables(refused);
    List<String> differing =
        OwnFiles.differing(fileSystem, places.current(), list, list.files().keySet());
    if (!differing.isEmpty()) {
      throw new InputException(
          refused
              + ": "
              + differing.get(0)
              + (differing.size() == 1
                  ? " is"
                  : " and " + (differing.size() - 1) + " more of its files are")
              + " not as written, but gone, damaged or changed. "
              + RUN_AGAIN);
    }
    Manifest manifest = manifest();
    int version = StatisticsCatalogue.builtIn().version();
    if (manifest.catalogueVersion() != version) {
      throw new InputException(
          refused
              + ": its statistics are of version "
              + manifest.catalogueVersion()
              + " of the catalogue, this program has version "
              + version
              + ". Run the study again.");
    }
    for (String table : manifest.tables().keySet()) {
      if (TableSchemas.all().stream().noneMatch(known -> known.table().equals(table))) {
        throw new InputException(
            refused
                + ": this program knows no table "
                + table
                + ", so another version wrote it. Run the study again.");
      }
    }
    source().check(manifest.tables());
  }

  /**
   * Looks at manifest and list once more. Where the folder could not be locked, or a lock is a
   * promise only, another run may have changed the study while it was read.
   *
   * @throws InputException if the study is not the one that was opened
   */
  public void refuseChanged() {
    boolean same;
    try {
      FileList opened = list();
      places.look();
      same =
          OwnFiles.list(fileSystem, places.current()).equals(opened)
              && OwnFiles.isAsListed(fileSystem, places.current(), opened, Manifest.FILE_NAME);
    } catch (IOException e) {
      same = false;
    }
    if (!same) {
      throw new InputException(
          "Cannot use the study in "
              + location()
              + ": it was changed while it was being read. Run the same command again.");
    }
  }

  private static StudyFolder at(String location, Configuration configuration) {
    try {
      Path path = InputPaths.of(location);
      FileSystem fileSystem = Stores.of(path, configuration);
      // Checksum files beside every file help nobody here: digests are in the manifest.
      fileSystem.setWriteChecksum(false);
      Path folder = fileSystem.makeQualified(path);
      return new StudyFolder(
          folder, fileSystem, configuration, StudyPlaces.of(folder, fileSystem, configuration));
    } catch (IOException | IllegalArgumentException e) {
      throw new InputException(
          "Cannot use the study folder " + location + ": " + reason(e) + ".", e);
    }
  }

  private static String reason(Exception e) {
    if (e instanceof AccessDeniedException denied) {
      return "no permission to use " + denied.getFile();
    }
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

  /**
   * Where new tables are written before they are made current.
   *
   * @throws InputException if nothing can be written there
   */
  public Path nextTables() {
    try {
      places.begin(false);
      return new Path(places.next(), RenamedPlaces.TABLES);
    } catch (IOException e) {
      throw new InputException(
          "Cannot write the study into " + location() + ": " + reason(e) + ".", e);
    }
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
    return manifest(places.manifest());
  }

  private Manifest manifest(Path file) {
    try (var stream = fileSystem.open(file)) {
      return Manifest.parse(file.toString(), stream);
    } catch (IOException e) {
      throw new InputException("Cannot read " + file + ": " + reason(e) + ".", e);
    }
  }

  /** The files of the next tables; whoever writes one says so here. */
  public WrittenTables written() {
    return written;
  }

  /** Takes files of the current tables over into the next ones. */
  public void keep(String table, String filePrefix) throws IOException {
    Path to = new Path(nextTables(), table);
    places.makeFolder(to);
    Manifest.Table described = manifest().tables().get(table);
    if (described == null) {
      return;
    }
    FileList list = list();
    List<Path> copies = new ArrayList<>();
    for (Map.Entry<String, Manifest.Part> entry : described.parts().entrySet()) {
      String name = entry.getKey();
      if (name.startsWith(filePrefix)) {
        String path = RenamedPlaces.TABLES + "/" + table + "/" + name;
        Path copy = new Path(to, name);
        FileCopy copied = FileCopy.of(fileSystem, new Path(places.current(), path), copy);
        if (!copied.sha256().equals(list.files().get(path))) {
          throw new IOException(path + " has changed meanwhile");
        }
        copies.add(copy);
        written.add(
            table,
            name,
            new TableFile.Stored(
                new TableFile.Written(entry.getValue().rows(), entry.getValue().digest()),
                copied.sha256(),
                copied.bytes()));
      }
    }
    Durable.force(fileSystem, copies);
  }

  /** Makes the tables that were written aside, and their manifest, the current ones. */
  public void commit(Manifest manifest) throws IOException {
    commit(manifest, null);
  }

  /**
   * Makes the tables that were written aside, their manifest and their report the current ones, all
   * in one step.
   *
   * @param pages makes the report; null to leave the one that is there, which says of which tables
   *     it is
   */
  public void commit(Manifest manifest, ReportPages pages) throws IOException {
    places.checkUnchanged();
    nextTables();
    Path next = places.next();
    Map<String, String> files = new TreeMap<>(listed(manifest));
    String sha256 = write(manifest, new Path(next, Manifest.FILE_NAME));
    files.put(Manifest.FILE_NAME, sha256);
    Durable.write(
        fileSystem, new Path(next, FileList.FILE_NAME), FileList.of(FileList.STUDY, files).bytes());
    if (pages != null) {
      try {
        write(pages, new ParquetTables(nextTables(), configuration), manifest, sha256);
      } catch (RuntimeException e) {
        // A fault in a page costs nobody the reading of a thousand scores; the next run takes it
        // over.
        keepUnfinished = !(e instanceof InputException);
        throw e;
      }
    }
    force(next);
    places.commit(true, pages != null);
    current = null;
    written.clear();
    committed = true;
    remarks.addAll(places.remarks());
  }

  /** Everything that was written is on the disk, its names too. */
  private void force(Path next) throws IOException {
    if (!StudyPlaces.isLocal(fileSystem)) {
      return;
    }
    List<Path> forced = new ArrayList<>(List.of(next, next.getParent()));
    FolderTree.below(fileSystem, next)
        .forEach(
            (path, kind) -> {
              if (kind == FolderTree.Kind.FOLDER) {
                forced.add(new Path(next, path));
              }
            });
    for (TableSchema schema : TableSchemas.all()) {
      if (!TableSchemas.OF_READING.contains(schema.table())) {
        // The tasks of reading have forced their parts.
        Path table = new Path(new Path(next, RenamedPlaces.TABLES), schema.table());
        written.files(schema.table()).keySet().forEach(name -> forced.add(new Path(table, name)));
      }
    }
    Durable.force(fileSystem, forced);
  }

  private String write(Manifest manifest, Path file) throws IOException {
    MessageDigest digest = Sha256.digest();
    FSDataOutputStream stream = fileSystem.create(file, true);
    try {
      manifest.write(new DigestOutputStream(stream, digest));
    } catch (IOException e) {
      stream.close();
      throw e;
    }
    Durable.close(stream);
    return HexFormat.of().formatHex(digest.digest());
  }

  private void write(
      ReportPages pages, ParquetTables tables, Manifest manifest, String manifestSha256)
      throws IOException {
    places.begin(true);
    Path report = places.nextReport();
    boolean local = StudyPlaces.isLocal(fileSystem);
    java.nio.file.Path into =
        local
            ? Files.createDirectories(FolderTree.local(report))
            : Files.createTempDirectory("phrase-census-report");
    try {
      pages.write(tables, manifest, into);
      FileSystem here = FileSystem.getLocal(configuration);
      Path made = new Path(into.toUri());
      Map<String, String> files = new TreeMap<>();
      List<Path> forced = new ArrayList<>();
      for (Map.Entry<String, FolderTree.Kind> entry : FolderTree.below(here, made).entrySet()) {
        String name = entry.getKey();
        if (entry.getValue() == FolderTree.Kind.FILE && !name.equals(FolderMarker.FILE_NAME)) {
          Path page = new Path(made, name);
          files.put(name, FolderTree.sha256(here, page));
          if (!local) {
            FileCopy.of(here, page, fileSystem, new Path(report, name));
          }
        }
        forced.add(new Path(report, name));
      }
      Durable.write(
          fileSystem,
          new Path(report, FileList.FILE_NAME),
          FileList.of(FileList.REPORT + " " + manifestSha256, files).bytes());
      forced.add(report);
      Durable.force(fileSystem, forced);
    } finally {
      if (!local) {
        FolderTree.delete(FileSystem.getLocal(configuration), new Path(into.toUri()));
      }
    }
  }

  /** Holds what lies in the next tables against what was said to be written, and the manifest. */
  private Map<String, String> listed(Manifest manifest) throws IOException {
    Map<String, String> files = new TreeMap<>();
    Map<String, Long> all = sizes(manifest);
    for (Map.Entry<String, Manifest.Table> entry : manifest.tables().entrySet()) {
      String table = entry.getKey();
      Map<String, Long> sizes = new TreeMap<>();
      for (Map.Entry<String, Long> file : all.entrySet()) {
        if (!file.getKey().startsWith(table + "/")) {
          continue;
        }
        String name = file.getKey().substring(table.length() + 1);
        if (written.files(table).containsKey(name)) {
          sizes.put(name, file.getValue());
        } else {
          // Of an attempt that failed.
          fileSystem.delete(new Path(nextTables(), file.getKey()), true);
        }
      }
      Manifest.Table found = written.table(table, entry.getValue().version());
      boolean whole = found.equals(entry.getValue());
      for (Map.Entry<String, TableFile.Stored> file : written.files(table).entrySet()) {
        whole &= Long.valueOf(file.getValue().bytes()).equals(sizes.get(file.getKey()));
        files.put(
            RenamedPlaces.TABLES + "/" + table + "/" + file.getKey(), file.getValue().sha256());
      }
      if (!whole) {
        throw new IOException(
            "table " + table + " was not written whole; the study is as it was before");
      }
    }
    return files;
  }

  /** Sizes of the files of the next tables by table and name. */
  private Map<String, Long> sizes(Manifest manifest) throws IOException {
    if (!StudyPlaces.isLocal(fileSystem)) {
      return FolderTree.files(fileSystem, nextTables());
    }
    Map<String, Long> sizes = new TreeMap<>();
    for (String table : manifest.tables().keySet()) {
      for (FileStatus status : fileSystem.listStatus(new Path(nextTables(), table))) {
        sizes.put(table + "/" + status.getPath().getName(), status.getLen());
      }
    }
    return sizes;
  }

  /**
   * Makes the report of the current tables anew and puts it in the place of the one that is there.
   *
   * @return where it is now, as a person writes it
   */
  public String publish(ReportPages pages) {
    try {
      String sha256 = FolderTree.sha256(fileSystem, places.manifest());
      write(pages, source(), manifest(), sha256);
      Durable.force(fileSystem, List.of(places.nextReport().getParent()));
      places.commit(false, true);
      remarks.addAll(places.remarks());
      return reportLocation();
    } catch (IOException e) {
      throw new InputException("Cannot write the report: " + reason(e) + ".", e);
    }
  }

  /** Where the report is, as a person writes it. */
  public String reportLocation() {
    return address(places.report());
  }

  /** Whether there is a report, and it is of other tables than the current ones. */
  public boolean hasOlderReport() {
    try {
      Path report = places.report();
      if (report == null || !fileSystem.exists(report)) {
        return false;
      }
      FileList pages = OwnFiles.list(fileSystem, report);
      return !pages.isWhole(FileList.REPORT)
          || !pages.belongsTo().equals(FolderTree.sha256(fileSystem, places.manifest()));
    } catch (IOException e) {
      return true;
    }
  }

  /** Folders with tables whose rows may be taken over: the current one, those of killed runs. */
  List<Path> earlier() {
    return places.earlier();
  }

  /** What lies in them, as far as it is listed. */
  public EarlierReading earlierReading() {
    List<EarlierReading.Source> sources = new ArrayList<>();
    try {
      for (Path earlier : places.earlier()) {
        FileList list =
            earlier.equals(places.current()) ? list() : OwnFiles.list(fileSystem, earlier);
        sources.add(
            new EarlierReading.Source(
                new Path(earlier, RenamedPlaces.TABLES).toString(),
                list.equals(FileList.NONE) ? OwnFiles.parts(fileSystem, earlier) : list,
                earlier.equals(places.current())));
      }
    } catch (IOException e) {
      throw new InputException("Cannot read in " + location() + ": " + reason(e) + ".", e);
    }
    return EarlierReading.in(sources, configuration);
  }

  /**
   * What people should know of this run and the files that it found, sentences; each is told once.
   */
  public List<String> remarks() {
    List<String> told = new ArrayList<>(remarks);
    told.addAll(places.remarks());
    remarks.clear();
    return told;
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
  public static String address(Path path) {
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
        unmark();
      } catch (IOException e) {
        // The next run finds from the lock that its owner is gone.
      }
      lock = null;
    }
  }

  /** A folder in which nothing came to be is left as it was found. */
  private void unmark() throws IOException {
    if (marked && !committed) {
      boolean free =
          FolderTree.names(fileSystem, folder).keySet().stream()
              .filter(name -> !name.equals(FolderMarker.FILE_NAME))
              .allMatch(name -> name.startsWith(".") && !RenamedPlaces.mayBeIn(List.of(name)));
      if (free && !PointedPlaces.areIn(fileSystem, folder)) {
        fileSystem.delete(new Path(folder, FolderMarker.FILE_NAME), false);
      }
    }
    if (made && FolderTree.names(fileSystem, folder).isEmpty()) {
      fileSystem.delete(folder, false);
    }
  }
}
