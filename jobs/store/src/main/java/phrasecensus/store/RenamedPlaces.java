package phrasecensus.store;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.UUID;
import java.util.regex.Pattern;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import phrasecensus.tables.FileList;
import phrasecensus.tables.Manifest;

/**
 * A study whose new tables and pages become current by renaming.
 *
 * <p>They are written aside in a working folder of a random name. When all of them are there,
 * checked and on the disk, a mark says so, and only then the old ones give way, into the same
 * working folder. A run that dies before the mark leaves the old study as it was; one that dies
 * after it is finished by the next command, since every step after the mark can be taken again. The
 * old files are deleted when the new names are on the disk. What a killed run has read lies in its
 * working folder until a later one is finished, which takes it over.
 */
final class RenamedPlaces implements StudyPlaces {
  static final String TABLES = "tables";
  static final String REPORT = "report";

  /** What lies in the folder of a study that is written in this manner. */
  static final List<String> OWN = List.of(TABLES, REPORT, Manifest.FILE_NAME, FileList.FILE_NAME);

  private static final String WORKING = ".working-";
  private static final Pattern WORKING_FOLDER = Pattern.compile("\\.working-[0-9a-f]{32}");
  private static final String COMPLETE = "complete.sha256";
  private static final String PREVIOUS = "previous";
  private static final String SET_ASIDE = "set-aside-";

  private final Path folder;
  private final FileSystem fileSystem;
  private final List<Path> left = new ArrayList<>();
  private final List<String> remarks = new ArrayList<>();
  private Path next;

  RenamedPlaces(Path folder, FileSystem fileSystem) {
    this.folder = folder;
    this.fileSystem = fileSystem;
  }

  /** A fresh name for what is set aside. */
  static String setAsideName() {
    return SET_ASIDE + UUID.randomUUID().toString().substring(0, 8);
  }

  /** Whether a killed run may have left a working folder. */
  static boolean mayBeIn(Iterable<String> names) {
    for (String name : names) {
      if (WORKING_FOLDER.matcher(name).matches()) {
        return true;
      }
    }
    return false;
  }

  @Override
  public void makeFolder(Path path) throws IOException {
    fileSystem.mkdirs(path);
  }

  @Override
  public void recover() throws IOException {
    left.clear();
    for (Map.Entry<String, FolderTree.Kind> entry :
        FolderTree.names(fileSystem, folder).entrySet()) {
      if (entry.getValue() == FolderTree.Kind.FOLDER
          && WORKING_FOLDER.matcher(entry.getKey()).matches()) {
        Path working = new Path(folder, entry.getKey());
        if (OwnFiles.isWorking(fileSystem, working)) {
          if (isComplete(working)) {
            makeCurrent(working);
          } else {
            left.add(working);
          }
        } else if (OwnFiles.isHardlyBegun(fileSystem, working)) {
          FolderTree.delete(fileSystem, working);
        }
      }
    }
  }

  @Override
  public void look() {
    // The names are always the same.
  }

  private boolean isComplete(Path working) throws IOException {
    return OwnFiles.read(fileSystem, new Path(working, COMPLETE)).isWhole(FileList.STUDY);
  }

  @Override
  public void begin(boolean report) throws IOException {
    if (next == null) {
      Path fresh = new Path(folder, WORKING + UUID.randomUUID().toString().replace("-", ""));
      OwnFiles.makeWorking(fileSystem, fresh);
      next = fresh;
    }
  }

  @Override
  public Path current() {
    return folder;
  }

  @Override
  public Path report() {
    return new Path(folder, REPORT);
  }

  @Override
  public Path next() {
    return next;
  }

  @Override
  public Path nextReport() {
    return new Path(next, REPORT);
  }

  @Override
  public List<Path> earlier() {
    List<Path> earlier = new ArrayList<>(List.of(folder));
    earlier.addAll(left);
    return earlier;
  }

  @Override
  public void checkUnchanged() {
    // The locks of file systems that rename tell for sure whether another run is there.
  }

  @Override
  public void commit(boolean tables, boolean report) throws IOException {
    Map<String, String> lists = new TreeMap<>();
    for (String list : List.of(FileList.FILE_NAME, REPORT + "/" + FileList.FILE_NAME)) {
      if (fileSystem.exists(new Path(next, list))) {
        lists.put(list, FolderTree.sha256(fileSystem, new Path(next, list)));
      }
    }
    Durable.write(fileSystem, new Path(next, COMPLETE), FileList.of(FileList.STUDY, lists).bytes());
    Durable.force(fileSystem, List.of(next));
    Path working = next;
    makeCurrent(working);
    next = null;
    for (Path each : List.copyOf(left)) {
      FolderTree.delete(fileSystem, each);
      left.remove(each);
    }
  }

  private void makeCurrent(Path working) throws IOException {
    Path previous = new Path(working, PREVIOUS);
    fileSystem.mkdirs(previous);
    for (String name : OWN) {
      Path from = new Path(working, name);
      Path to = new Path(folder, name);
      if (FolderTree.isThere(fileSystem, from)) {
        if (FolderTree.isThere(fileSystem, to)) {
          Path place = new Path(previous, name);
          rename(
              to,
              FolderTree.isThere(fileSystem, place)
                  ? new Path(previous, name + "-" + UUID.randomUUID())
                  : place);
        }
        rename(from, to);
      }
    }
    Durable.force(fileSystem, List.of(folder, working, previous));
    sweep(previous);
    FolderTree.delete(fileSystem, working);
  }

  /** Deletes what was current before, and nothing that anybody else has put there. */
  private void sweep(Path previous) throws IOException {
    FileList pages = OwnFiles.list(fileSystem, new Path(previous, REPORT));
    List<String> rest = new ArrayList<>();
    for (String path : OwnFiles.delete(fileSystem, previous, List.of(REPORT), true)) {
      if (!isPutBack(previous, path, pages)) {
        rest.add(path);
      }
    }
    FolderTree.deleteEmpty(fileSystem, previous);
    if (!rest.isEmpty()) {
      Path kept = new Path(folder, setAsideName());
      rename(previous, kept);
      Durable.force(fileSystem, List.of(folder));
      // Where pages are not as listed, the list can be at fault as well as they: it is named.
      boolean paged = rest.stream().anyMatch(path -> path.startsWith(REPORT + "/"));
      String list = REPORT + "/" + FileList.FILE_NAME + ", the list of the pages, ";
      remarks.add(
          (pages.whole() || !paged ? "" : list + "was gone, damaged or changed. ")
              + (pages.whole() && paged
                  ? "Not as " + list + "has it, and kept in "
                  : "Not as this program wrote it, and kept in ")
              + StudyFolder.address(kept)
              + ": "
              + rest.get(0)
              + (rest.size() == 1 ? "" : " and " + (rest.size() - 1) + " more")
              + ". Delete it when nobody needs it.");
    }
  }

  /** What somebody put beside the pages, or a system beside the tables, stays where it is. */
  private boolean isPutBack(Path previous, String path, FileList pages) throws IOException {
    boolean beside =
        path.startsWith(REPORT + "/")
            ? pages.whole() && !pages.files().containsKey(path.substring(REPORT.length() + 1))
            : path.startsWith(TABLES + "/") && OwnFiles.isHidden(path);
    Path place = new Path(folder, path);
    if (!beside || FolderTree.isThere(fileSystem, place)) {
      return false;
    }
    fileSystem.mkdirs(place.getParent());
    return fileSystem.rename(new Path(previous, path), place);
  }

  @Override
  public void giveUp() throws IOException {
    if (next != null && !isComplete(next)) {
      FolderTree.delete(fileSystem, next);
      next = null;
    }
  }

  @Override
  public List<String> remarks() {
    List<String> told = List.copyOf(remarks);
    remarks.clear();
    return told;
  }

  private void rename(Path from, Path to) throws IOException {
    if (!fileSystem.rename(from, to)) {
      throw new IOException("cannot rename " + from + " to " + to);
    }
  }
}
