package phrasecensus.store;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Set;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.CommonPathCapabilities;
import org.apache.hadoop.fs.FSDataOutputStream;
import org.apache.hadoop.fs.FSDataOutputStreamBuilder;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Options.CreateFileOptionKeys;
import org.apache.hadoop.fs.Path;
import phrasecensus.tables.InputException;
import phrasecensus.tables.Manifest;

/**
 * Where in a study folder the current tables and pages lie, where new ones are written, and how
 * they become the current ones. Nothing but this knows.
 */
interface StudyPlaces {
  /**
   * A setting of Hadoop that names the manner for new studies: {@code rename} or {@code pointer}.
   */
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
    return !renames || PointedPlaces.areIn(fileSystem, folder)
        ? new PointedPlaces(folder, fileSystem)
        : new RenamedPlaces(folder, fileSystem);
  }

  static boolean isLocal(FileSystem fileSystem) {
    return fileSystem.getUri().getScheme().equals("file");
  }

  /**
   * Whether a file that is open for writing is held for as long as its writer lives, as on HDFS.
   */
  static boolean knowsWhenWritersAreGone(FileSystem fileSystem, Path path) throws IOException {
    return fileSystem.hasPathCapability(path, CommonPathCapabilities.LEASE_RECOVERABLE);
  }

  /**
   * Writes a small file that must not be there yet. Where the store can look for it and write it in
   * one step it is asked to; S3A looks first and writes later unless it is.
   *
   * @throws IOException of whatever kind the store likes if the file is there
   */
  static void writeNew(FileSystem fileSystem, Path file, String text) throws IOException {
    FSDataOutputStream stream = newFile(fileSystem, file);
    try {
      stream.write(text.getBytes(StandardCharsets.UTF_8));
    } catch (IOException e) {
      stream.close();
      throw e;
    }
    Durable.close(stream);
  }

  private static FSDataOutputStream newFile(FileSystem fileSystem, Path file) throws IOException {
    String condition = CreateFileOptionKeys.FS_OPTION_CREATE_CONDITIONAL_OVERWRITE;
    if (!fileSystem.hasPathCapability(file, condition)) {
      return fileSystem.create(file, false);
    }
    FSDataOutputStreamBuilder<?, ?> builder = fileSystem.createFile(file);
    builder.recursive();
    builder.must(condition, true);
    return builder.build();
  }

  /**
   * Makes a folder where one has to be made. On object stores names of objects make them; a mark
   * for an empty one would be an object more, which some stores then take for the folder itself.
   */
  void makeFolder(Path path) throws IOException;

  /** Looks at what is there, and finishes what a run began that was killed while it committed. */
  void recover() throws IOException;

  /** Looks at what is there, and changes nothing. */
  void look() throws IOException;

  /**
   * Makes a working folder, its marker first, unless this run has one. What a killed run has read
   * stays where {@link #earlier} finds it.
   *
   * @param report true for pages, false for tables
   */
  void begin(boolean report) throws IOException;

  /** The folder with manifest, tables and their list, of the current study. */
  Path current();

  /** The folder with one folder a table, of the current study. */
  default Path tables() {
    return new Path(current(), RenamedPlaces.TABLES);
  }

  /** The manifest of the current study. */
  default Path manifest() {
    return new Path(current(), Manifest.FILE_NAME);
  }

  /** The folder of the current report; null where nothing names one. */
  Path report();

  /** Where the next manifest, tables and their list are written; begun before. */
  Path next();

  /** Where the pages of the next report and their list are written; begun before. */
  Path nextReport();

  /** Folders with tables whose rows may be taken over: the current one, those of killed runs. */
  List<Path> earlier();

  /**
   * Looks whether the study is the one that this run opened.
   *
   * @throws IOException if another run has changed it, which only the lock of a store cannot
   *     prevent
   */
  void checkUnchanged() throws IOException;

  /**
   * Makes what was written and forced to the disk the current study, tables and pages together, and
   * deletes what was current before.
   */
  void commit(boolean tables, boolean report) throws IOException;

  /** Deletes what was written and has not become current. */
  void giveUp() throws IOException;

  /** What people should know of files that are not this program's, sentences; each is told once. */
  List<String> remarks();
}
