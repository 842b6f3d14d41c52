package phrasecensus.spark;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.CommonPathCapabilities;
import org.apache.hadoop.fs.FSDataOutputStreamBuilder;
import org.apache.hadoop.fs.FileStatus;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Options.CreateFileOptionKeys;
import org.apache.hadoop.fs.Path;
import phrasecensus.tables.InputException;
import phrasecensus.tables.Manifest;

/**
 * Where in a study folder the current tables and pages lie, where new ones are written, and how they
 * become the current ones. Nothing but this knows.
 */
interface StudyPlaces {
  /** A setting of Hadoop that names the manner for new studies: {@code rename} or {@code pointer}. */
  String SETTING = "phrasecensus.commit";

  /**
   * The manner of a study folder: that in which it was written, or else the one that suits its file
   * system. Renaming a folder is one step on a local disk and on HDFS, which is told by its leases;
   * elsewhere it may be a copy, file by file, so a pointer is used.
   */
  static StudyPlaces of(Path folder, FileSystem fileSystem, Configuration configuration)
      throws IOException {
    String setting = configuration.getTrimmed(SETTING, "");
    if (!Set.of("", "rename", "pointer").contains(setting)) {
      throw new InputException(
          "Invalid value for " + SETTING + ": " + setting + ". Say rename or pointer.");
    }
    boolean renames =
        setting.isEmpty()
            ? isLocal(fileSystem) || knowsWhenWritersAreGone(fileSystem, folder)
            : setting.equals("rename");
    return !renames || PointedPlaces.areIn(names(fileSystem, folder))
        ? new PointedPlaces(folder, fileSystem, configuration)
        : new RenamedPlaces(folder, fileSystem, configuration);
  }

  static boolean isLocal(FileSystem fileSystem) {
    return fileSystem.getUri().getScheme().equals("file");
  }

  /** Whether a file that is open for writing is held for as long as its writer lives, as on HDFS. */
  static boolean knowsWhenWritersAreGone(FileSystem fileSystem, Path path) throws IOException {
    return fileSystem.hasPathCapability(path, CommonPathCapabilities.LEASE_RECOVERABLE);
  }

  /** Names of what lies in a folder, sorted; none when it is not there. */
  static Set<String> names(FileSystem fileSystem, Path folder) throws IOException {
    Set<String> names = new TreeSet<>();
    try {
      for (FileStatus status : fileSystem.listStatus(folder)) {
        names.add(status.getPath().getName());
      }
    } catch (FileNotFoundException e) {
      // An object store has no folder until something is in it.
    }
    return names;
  }

  /** Writes a small file; an existing one is replaced. */
  static void write(FileSystem fileSystem, Path file, String text) throws IOException {
    try (OutputStream stream = fileSystem.create(file, true)) {
      stream.write(text.getBytes(StandardCharsets.UTF_8));
    }
  }

  /**
   * Writes a small file that must not be there yet. Where the store can look for it and write it in
   * one step it is asked to; S3A looks first and writes later unless it is.
   *
   * @throws IOException of whatever kind the store likes if the file is there
   */
  static void writeNew(FileSystem fileSystem, Path file, String text) throws IOException {
    try (OutputStream stream = newFile(fileSystem, file)) {
      stream.write(text.getBytes(StandardCharsets.UTF_8));
    }
  }

  private static OutputStream newFile(FileSystem fileSystem, Path file) throws IOException {
    String condition = CreateFileOptionKeys.FS_OPTION_CREATE_CONDITIONAL_OVERWRITE;
    if (!fileSystem.hasPathCapability(file, condition)) {
      return fileSystem.create(file, false);
    }
    FSDataOutputStreamBuilder<?, ?> builder = fileSystem.createFile(file);
    builder.recursive();
    builder.must(condition, true);
    return builder.build();
  }

  /** Writes a manifest, which is long where there are many inputs, piece by piece. */
  static void write(FileSystem fileSystem, Path folder, Manifest manifest) throws IOException {
    try (OutputStream stream = fileSystem.create(new Path(folder, Manifest.FILE_NAME), true)) {
      manifest.write(stream);
    }
  }

  /**
   * Makes a folder where one has to be made. On object stores names of objects make them; a mark for
   * an empty one would be an object more, which some stores then take for the folder itself.
   */
  void makeFolder(Path path) throws IOException;

  /** Looks at what is there, and finishes what a run began that was killed while it committed. */
  void recover() throws IOException;

  /** Makes room for new tables; what a killed run has read stays where the next one finds it. */
  void setAside() throws IOException;

  /** The folder with one folder a table, of the current study. */
  Path tables();

  /** The manifest of the current study. */
  Path manifest();

  /** Where new tables are written. */
  Path nextTables();

  /** Where tables lie whose rows may be taken over: the current ones, those of killed runs. */
  List<Path> earlierTables();

  /**
   * Looks whether the study is the one that this run opened.
   *
   * @throws IOException if another run has changed it, which only the lock of a store cannot prevent
   */
  void checkUnchanged() throws IOException;

  /** Makes the tables that were written the current ones. */
  void commit(Manifest manifest) throws IOException;

  /**
   * Makes pages from a local folder the current report.
   *
   * @return where they are now
   */
  Path publish(java.nio.file.Path local) throws IOException;

  /** Deletes what was written and has not become current. */
  void giveUp() throws IOException;
}
