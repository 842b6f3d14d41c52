package phrasecensus.spark;

import java.io.IOException;
import java.util.List;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.FileUtil;
import org.apache.hadoop.fs.Path;
import phrasecensus.tables.Manifest;

/**
 * A study whose new tables become current by renaming.
 *
 * <p>They are written aside in {@code .next/}. When all of them are there and checked, a mark says
 * so, and only then the old ones give way. A run that dies before the mark leaves the old study as
 * it was; one that dies after it is finished by the next command, since every step after the mark
 * can be taken again. What a killed run has read lies in {@code .left/} until the next one is
 * finished, which takes it over.
 */
final class RenamedPlaces implements StudyPlaces {
  static final String NEXT = ".next";
  static final String LEFT = ".left";
  static final String TABLES = "tables";
  static final String REPORT = "report";
  private static final String PREVIOUS = ".previous";
  private static final String COMPLETE = "COMPLETE";
  private static final String NEXT_REPORT = ".report-next";
  private static final String PREVIOUS_REPORT = ".report-previous";
  private static final String UNFINISHED_REPORT = ".report-unfinished";

  /** Everything that this manner leaves in a study folder. */
  static final List<String> OWN =
      List.of(
          TABLES,
          Manifest.FILE_NAME,
          REPORT,
          NEXT,
          LEFT,
          PREVIOUS,
          NEXT_REPORT,
          PREVIOUS_REPORT,
          UNFINISHED_REPORT);

  private final Path folder;
  private final FileSystem fileSystem;
  private final Configuration configuration;

  RenamedPlaces(Path folder, FileSystem fileSystem, Configuration configuration) {
    this.folder = folder;
    this.fileSystem = fileSystem;
    this.configuration = configuration;
  }

  @Override
  public void makeFolder(Path path) throws IOException {
    fileSystem.mkdirs(path);
  }

  @Override
  public void recover() throws IOException {
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

  @Override
  public void setAside() throws IOException {
    Path next = new Path(folder, NEXT);
    Path left = new Path(folder, LEFT);
    if (fileSystem.exists(new Path(next, TABLES))) {
      fileSystem.delete(left, true);
      rename(next, left);
    } else {
      fileSystem.delete(next, true);
    }
  }

  @Override
  public Path tables() {
    return new Path(folder, TABLES);
  }

  @Override
  public Path manifest() {
    return new Path(folder, Manifest.FILE_NAME);
  }

  @Override
  public Path nextTables() {
    return new Path(new Path(folder, NEXT), TABLES);
  }

  @Override
  public List<Path> earlierTables() {
    return List.of(tables(), new Path(new Path(folder, LEFT), TABLES));
  }

  @Override
  public void checkUnchanged() {
    // The locks of file systems that rename tell for sure whether another run is there.
  }

  @Override
  public void commit(Manifest manifest) throws IOException {
    Path next = new Path(folder, NEXT);
    StudyPlaces.write(fileSystem, next, manifest);
    StudyPlaces.write(fileSystem, new Path(next, COMPLETE), "");
    makeCurrent();
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
      fileSystem.delete(manifest(), false);
      rename(manifest, manifest());
    }
    fileSystem.delete(next, true);
    fileSystem.delete(previous, true);
    fileSystem.delete(new Path(folder, LEFT), true);
  }

  @Override
  public Path publish(java.nio.file.Path local) throws IOException {
    Path aside = new Path(folder, UNFINISHED_REPORT);
    fileSystem.delete(aside, true);
    FileUtil.copy(local.toFile(), fileSystem, aside, false, configuration);
    rename(aside, new Path(folder, NEXT_REPORT));
    makeReportCurrent();
    return new Path(folder, REPORT);
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

  @Override
  public void giveUp() throws IOException {
    if (!fileSystem.exists(new Path(new Path(folder, NEXT), COMPLETE))) {
      fileSystem.delete(new Path(folder, NEXT), true);
    }
  }

  private void rename(Path from, Path to) throws IOException {
    if (!fileSystem.rename(from, to)) {
      throw new IOException("cannot rename " + from + " to " + to);
    }
  }
}
