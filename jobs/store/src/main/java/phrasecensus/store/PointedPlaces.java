package phrasecensus.store;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import phrasecensus.tables.FileList;
import phrasecensus.tables.InputException;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.StudyPointer;

/**
 * A study whose new tables become current when a small file names them: for stores on which nothing
 * but writing one file is a single step, as object stores are.
 *
 * <p>Every run writes into a folder of a name that was never there before. Then it creates the next
 * pointer, {@code current-00000008.json} after {@code current-00000007.json}, and the highest is
 * the one that counts. A pointer is only ever created, never replaced: of two runs that began from
 * the same study, one finds the number taken, and the study is as the other left it. Only what a
 * run found when it opened the folder is swept, and only after its own pointer stands. So a run
 * that is killed, at whatever moment, leaves the old study or the new one, and further files that
 * the next run takes over or sweeps.
 */
final class PointedPlaces implements StudyPlaces {
  private static final Pattern POINTER = Pattern.compile("current-(\\d{8})\\.json");
  private static final String GENERATION = "generation-";
  private static final String REPORT = "report-";
  private static final Pattern OWN_FOLDER =
      Pattern.compile("(" + GENERATION + "|" + REPORT + ")[0-9a-f]{32}");
  private static final int LARGEST_POINTER = 1 << 12;

  private final Path folder;
  private final FileSystem fileSystem;

  /** Names in the study folder that are this program's, as far as this run found or made them. */
  private final Set<String> own = new TreeSet<>();

  private final List<String> remarks = new ArrayList<>();
  private Current current = new Current(0, null);
  private String next = fresh(GENERATION);
  private String nextReport = fresh(REPORT);
  private boolean begun;
  private boolean reportBegun;

  /** Whether a pointer may name what was written, so that it must stay whatever is said. */
  private boolean perhapsCurrent;

  /**
   * What the pointers say.
   *
   * @param number the highest number of a pointer; 0 before the first
   * @param pointer the highest one that is whole; null for none
   */
  private record Current(long number, StudyPointer pointer) {}

  PointedPlaces(Path folder, FileSystem fileSystem) {
    this.folder = folder;
    this.fileSystem = fileSystem;
  }

  private static String fresh(String kind) {
    return kind + UUID.randomUUID().toString().replace("-", "");
  }

  /**
   * Whether a folder holds a study in this manner, or one that was begun: by what is in its files.
   */
  static boolean areIn(FileSystem fileSystem, Path folder) throws IOException {
    for (Map.Entry<String, FolderTree.Kind> entry :
        FolderTree.names(fileSystem, folder).entrySet()) {
      Path path = new Path(folder, entry.getKey());
      if (POINTER.matcher(entry.getKey()).matches()
          && entry.getValue() == FolderTree.Kind.FILE
          && pointer(fileSystem, path) != null) {
        return true;
      }
      if (OWN_FOLDER.matcher(entry.getKey()).matches() && OwnFiles.isWorking(fileSystem, path)) {
        return true;
      }
    }
    return false;
  }

  @Override
  public void makeFolder(Path path) {
    // Whatever is written into it makes it.
  }

  @Override
  public void recover() throws IOException {
    Map<String, FolderTree.Kind> names = FolderTree.names(fileSystem, folder);
    Set<String> pointers = new TreeSet<>();
    current = current(names.keySet(), pointers);
    if (current.pointer() == null && RenamedPlaces.mayBeIn(names.keySet())) {
      // Written by renaming, and killed, before somebody asked for pointers.
      RenamedPlaces renamed = new RenamedPlaces(folder, fileSystem);
      renamed.recover();
      remarks.addAll(renamed.remarks());
      names = FolderTree.names(fileSystem, folder);
    }
    own.clear();
    for (Map.Entry<String, FolderTree.Kind> entry : names.entrySet()) {
      String name = entry.getKey();
      Path path = new Path(folder, name);
      if (RenamedPlaces.OWN.contains(name)
          || pointers.contains(name)
          || OWN_FOLDER.matcher(name).matches() && isOwnFolder(path)) {
        own.add(name);
      }
    }
  }

  @Override
  public void look() throws IOException {
    current = current(FolderTree.names(fileSystem, folder).keySet());
  }

  /** With our marker, or as a run leaves it that was killed before it had written one. */
  private boolean isOwnFolder(Path path) throws IOException {
    return OwnFiles.isWorking(fileSystem, path) || OwnFiles.isHardlyBegun(fileSystem, path);
  }

  private Current current(Set<String> names) throws IOException {
    return current(names, new TreeSet<>());
  }

  /** The same, and the names of pointers that are this program's. */
  private Current current(Set<String> names, Set<String> pointers) throws IOException {
    long highest = 0;
    long whole = 0;
    StudyPointer pointer = null;
    for (String name : names) {
      Matcher matcher = POINTER.matcher(name);
      if (matcher.matches()) {
        long number = Long.parseLong(matcher.group(1));
        highest = Math.max(highest, number);
        StudyPointer read = pointer(fileSystem, new Path(folder, name));
        if (read != null) {
          pointers.add(name);
        }
        if (read != null && number > whole && names.contains(read.generation())) {
          whole = number;
          pointer = read;
        }
      }
    }
    return new Current(highest, highest > 0 && pointer == null ? withoutPointer(names) : pointer);
  }

  /**
   * The newest folder that is whole, where no pointer names one: on a store that cannot create a
   * file on condition, the pointer of a run that was overtaken may have replaced the one that
   * counts. A folder has a manifest from when it was checked. Null for none.
   */
  private StudyPointer withoutPointer(Set<String> names) throws IOException {
    StudyPointer newest = null;
    long time = Long.MIN_VALUE;
    for (String name : names) {
      if (name.startsWith(GENERATION)
          && !name.equals(next)
          && OwnFiles.isWorking(fileSystem, new Path(folder, name))) {
        try {
          long written = fileSystem.getFileStatus(manifest(name)).getModificationTime();
          if (written >= time) {
            time = written;
            newest = new StudyPointer(name, null);
          }
        } catch (FileNotFoundException e) {
          // Not finished.
        }
      }
    }
    return newest;
  }

  private Path manifest(String generation) {
    return new Path(new Path(folder, generation), Manifest.FILE_NAME);
  }

  /** What a pointer says; null when it is not there, half there, or somebody else's. */
  private static StudyPointer pointer(FileSystem fileSystem, Path file) throws IOException {
    byte[] bytes = FolderTree.bytes(fileSystem, file, LARGEST_POINTER);
    try {
      return bytes == null ? null : StudyPointer.parse(file.getName(), bytes);
    } catch (InputException e) {
      return null;
    }
  }

  @Override
  public void begin(boolean report) throws IOException {
    if (report && !reportBegun) {
      if (!begun && current.pointer() == null) {
        throw new IOException(
            "the study was copied here from another file system; run 'phrase-census norms' on it"
                + " first");
      }
      OwnFiles.makeWorking(fileSystem, new Path(folder, nextReport));
      reportBegun = true;
    } else if (!report && !begun) {
      OwnFiles.makeWorking(fileSystem, new Path(folder, next));
      begun = true;
    }
  }

  /**
   * A study that was written by renaming, and copied here, stays where it is until the next run.
   */
  @Override
  public Path current() {
    return current.pointer() == null ? folder : new Path(folder, current.pointer().generation());
  }

  @Override
  public Path report() {
    String name = current.pointer() == null ? RenamedPlaces.REPORT : current.pointer().report();
    return name == null ? null : new Path(folder, name);
  }

  @Override
  public Path next() {
    return new Path(folder, next);
  }

  @Override
  public Path nextReport() {
    return new Path(folder, nextReport);
  }

  @Override
  public List<Path> earlier() {
    List<Path> earlier = new ArrayList<>();
    earlier.add(current());
    for (String name : own) {
      Path path = new Path(folder, name);
      if (name.startsWith(GENERATION) && !path.equals(current())) {
        earlier.add(path);
      }
    }
    return earlier;
  }

  @Override
  public void commit(boolean tables, boolean report) throws IOException {
    String pages =
        report
            ? nextReport
            : current.pointer() != null
                ? current.pointer().report()
                : own.contains(RenamedPlaces.REPORT) ? RenamedPlaces.REPORT : null;
    moveTo(new StudyPointer(tables ? next : current.pointer().generation(), pages));
    if (tables) {
      next = fresh(GENERATION);
      begun = false;
    }
    if (report) {
      nextReport = fresh(REPORT);
      reportBegun = false;
    }
    perhapsCurrent = false;
  }

  @Override
  public void checkUnchanged() throws IOException {
    if (!current.equals(current(FolderTree.names(fileSystem, folder).keySet()))) {
      throw overtaken();
    }
  }

  private void moveTo(StudyPointer pointer) throws IOException {
    checkUnchanged();
    perhapsCurrent = true;
    String name = String.format(java.util.Locale.ROOT, "current-%08d.json", current.number() + 1);
    Path file = new Path(folder, name);
    IOException failure = null;
    try {
      StudyPlaces.writeNew(fileSystem, file, pointer.json());
      Durable.force(fileSystem, List.of(folder));
    } catch (IOException e) {
      failure = e;
    }
    // What is there decides: an answer may be lost on its way, and where a store cannot create a
    // file on condition that there is none, another run may have replaced it.
    StudyPointer written = pointer(fileSystem, file);
    if (written == null && failure != null) {
      throw failure;
    }
    if (!pointer.equals(written) || !fileSystem.exists(manifest(pointer.generation()))) {
      throw overtaken();
    }
    own.add(name);
    own.add(pointer.generation());
    if (pointer.report() != null) {
      own.add(pointer.report());
    }
    current = new Current(current.number() + 1, pointer);
    sweep(name);
  }

  private static IOException overtaken() {
    return new IOException(
        "another run has changed the study meanwhile, and it is as that run left it. Run the same"
            + " command again");
  }

  /** Deletes what is no longer current. */
  private void sweep(String pointer) {
    for (String name : List.copyOf(own)) {
      if (!name.equals(pointer)
          && !name.equals(current.pointer().generation())
          && !name.equals(current.pointer().report())) {
        try {
          List<String> rest = deleted(name);
          if (!rest.isEmpty()) {
            remarks.add(
                "Not as this program wrote it, and left in "
                    + StudyFolder.address(new Path(folder, name))
                    + ": "
                    + rest.get(0)
                    + (rest.size() == 1 ? "" : " and " + (rest.size() - 1) + " more")
                    + ". Delete it when nobody needs it.");
          }
          own.remove(name);
        } catch (IOException e) {
          // The study is whole without it; the next run finds it again.
        }
      }
    }
  }

  /** Deletes a file or a folder; gives what in it is not proven to be this program's. */
  private List<String> deleted(String name) throws IOException {
    Path path = new Path(folder, name);
    if (POINTER.matcher(name).matches()) {
      fileSystem.delete(path, false);
      return List.of();
    }
    if (name.equals(RenamedPlaces.TABLES)) {
      return OwnFiles.deleteTables(fileSystem, folder);
    }
    if (name.equals(Manifest.FILE_NAME) || name.equals(FileList.FILE_NAME)) {
      // Told by the list, and so deleted with the tables.
      return List.of();
    }
    if (!name.equals(RenamedPlaces.REPORT)
        && !fileSystem.exists(new Path(path, FileList.FILE_NAME))) {
      // Of a run that was killed before it finished it.
      FolderTree.delete(fileSystem, path);
      return List.of();
    }
    List<String> rest =
        OwnFiles.delete(fileSystem, path, List.of(), StudyPlaces.isLocal(fileSystem));
    FolderTree.deleteEmpty(fileSystem, path);
    return rest;
  }

  @Override
  public void giveUp() throws IOException {
    if (!perhapsCurrent) {
      if (begun) {
        FolderTree.delete(fileSystem, new Path(folder, next));
      }
      if (reportBegun) {
        FolderTree.delete(fileSystem, new Path(folder, nextReport));
      }
    }
  }

  @Override
  public List<String> remarks() {
    List<String> told = List.copyOf(remarks);
    remarks.clear();
    return told;
  }
}
