package phrasecensus.spark;

import java.io.File;
import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import phrasecensus.tables.InputException;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.StudyPointer;

/**
 * A study whose new tables become current when a small file names them: for stores on which nothing
 * but writing one file is a single step, as object stores are.
 *
 * <p>Every run writes into a folder of a name that was never there before. Then it creates the next
 * pointer, {@code current-00000008.json} after {@code current-00000007.json}, and the highest is the
 * one that counts. A pointer is only ever created, never replaced: of two runs that began from the
 * same study, one finds the number taken, and the study is as the other left it. Only what a run
 * found when it opened the folder is swept, and only after its own pointer stands. So a run that is
 * killed, at whatever moment, leaves the old study or the new one, and further files that the next
 * run takes over or sweeps.
 */
final class PointedPlaces implements StudyPlaces {
  private static final Pattern POINTER = Pattern.compile("current-(\\d{8})\\.json");
  private static final String GENERATION = "generation-";
  private static final String REPORT = "report-";
  private static final Pattern OWN_FOLDER =
      Pattern.compile("(" + GENERATION + "|" + REPORT + ")[0-9a-f]{32}");

  private final Path folder;
  private final FileSystem fileSystem;
  private final Configuration configuration;

  /** Names in the study folder that are this program's, as far as this run found or made them. */
  private final Set<String> own = new TreeSet<>();

  private String next = fresh(GENERATION);
  private Current current = new Current(0, null);

  /** Whether a pointer may name what was written, so that it must stay whatever is said. */
  private boolean perhapsCurrent;

  /**
   * What the pointers say.
   *
   * @param number the highest number of a pointer; 0 before the first
   * @param pointer the highest one that is whole; null for none
   */
  private record Current(long number, StudyPointer pointer) {}

  PointedPlaces(Path folder, FileSystem fileSystem, Configuration configuration) {
    this.folder = folder;
    this.fileSystem = fileSystem;
    this.configuration = configuration;
  }

  private static String fresh(String kind) {
    return kind + UUID.randomUUID().toString().replace("-", "");
  }

  /** Whether a folder with such names in it holds a study in this manner, or one that was begun. */
  static boolean areIn(Set<String> names) {
    return names.stream()
        .anyMatch(name -> POINTER.matcher(name).matches() || OWN_FOLDER.matcher(name).matches());
  }

  @Override
  public void makeFolder(Path path) {
    // Whatever is written into it makes it.
  }

  @Override
  public void recover() throws IOException {
    Set<String> names = StudyPlaces.names(fileSystem, folder);
    current = current(names);
    if (current.pointer() == null && names.contains(RenamedPlaces.NEXT)) {
      // Written by renaming, and killed, before somebody asked for pointers.
      new RenamedPlaces(folder, fileSystem, configuration).recover();
      names = StudyPlaces.names(fileSystem, folder);
    }
    own.clear();
    for (String name : names) {
      if (POINTER.matcher(name).matches()
          || OWN_FOLDER.matcher(name).matches()
          || RenamedPlaces.OWN.contains(name)) {
        own.add(name);
      }
    }
  }

  private Current current(Set<String> names) throws IOException {
    long highest = 0;
    long whole = 0;
    StudyPointer pointer = null;
    for (String name : names) {
      Matcher matcher = POINTER.matcher(name);
      if (matcher.matches()) {
        long number = Long.parseLong(matcher.group(1));
        highest = Math.max(highest, number);
        StudyPointer read = number > whole ? pointer(new Path(folder, name)) : null;
        if (read != null && names.contains(read.generation())) {
          whole = number;
          pointer = read;
        }
      }
    }
    return new Current(
        highest, highest > 0 && pointer == null ? withoutPointer(names) : pointer);
  }

  /**
   * The newest folder that is whole, where no pointer names one: on a store that cannot create a
   * file on condition, the pointer of a run that was overtaken may have replaced the one that counts.
   * A folder has a manifest from when it was checked. Null for none.
   */
  private StudyPointer withoutPointer(Set<String> names) throws IOException {
    StudyPointer newest = null;
    long time = Long.MIN_VALUE;
    for (String name : names) {
      if (name.startsWith(GENERATION) && !name.equals(next)) {
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

  /** What a pointer says; null when it is not there, or half there on a store that can do that. */
  private StudyPointer pointer(Path file) throws IOException {
    try (var stream = fileSystem.open(file)) {
      return StudyPointer.parse(file.getName(), stream.readAllBytes());
    } catch (FileNotFoundException | InputException e) {
      return null;
    }
  }

  @Override
  public void setAside() {
    // Nothing is in the way of a fresh name, and what killed runs left is found where it lies.
  }

  /** A study that was written by renaming, and copied here, stays where it is until the next run. */
  private Path currentFolder() {
    return current.pointer() == null ? folder : new Path(folder, current.pointer().generation());
  }

  @Override
  public Path tables() {
    return new Path(currentFolder(), RenamedPlaces.TABLES);
  }

  @Override
  public Path manifest() {
    return new Path(currentFolder(), Manifest.FILE_NAME);
  }

  @Override
  public Path nextTables() {
    return new Path(new Path(folder, next), RenamedPlaces.TABLES);
  }

  @Override
  public List<Path> earlierTables() {
    List<Path> earlier = new ArrayList<>();
    earlier.add(tables());
    for (String name : own) {
      Path tables = new Path(new Path(folder, name), RenamedPlaces.TABLES);
      if ((name.startsWith(GENERATION) || name.equals(RenamedPlaces.LEFT))
          && !tables.equals(tables())) {
        earlier.add(tables);
      }
    }
    return earlier;
  }

  @Override
  public void commit(Manifest manifest) throws IOException {
    StudyPlaces.write(fileSystem, new Path(folder, next), manifest);
    String report =
        current.pointer() != null
            ? current.pointer().report()
            : own.contains(RenamedPlaces.REPORT) ? RenamedPlaces.REPORT : null;
    moveTo(new StudyPointer(next, report));
    next = fresh(GENERATION);
    perhapsCurrent = false;
  }

  @Override
  public Path publish(java.nio.file.Path local) throws IOException {
    String report = fresh(REPORT);
    Path pages = new Path(folder, report);
    if (current.pointer() == null) {
      throw new IOException(
          "the study was copied here from another file system; run 'phrase-census norms' on it"
              + " first");
    }
    try {
      copy(local, pages);
      moveTo(new StudyPointer(current.pointer().generation(), report));
    } catch (IOException e) {
      own.add(report);
      throw e;
    }
    return pages;
  }

  /** Copies files, and makes no folders for them. */
  private void copy(java.nio.file.Path local, Path to) throws IOException {
    List<java.nio.file.Path> files;
    try (Stream<java.nio.file.Path> all = Files.walk(local)) {
      files = all.filter(Files::isRegularFile).sorted().toList();
    }
    for (java.nio.file.Path file : files) {
      String name = local.relativize(file).toString().replace(File.separatorChar, '/');
      try (OutputStream stream = fileSystem.create(new Path(to, name), true)) {
        Files.copy(file, stream);
      }
    }
  }

  @Override
  public void checkUnchanged() throws IOException {
    if (!current.equals(current(StudyPlaces.names(fileSystem, folder)))) {
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
    } catch (IOException e) {
      failure = e;
    }
    // What is there decides: an answer may be lost on its way, and where a store cannot create a
    // file on condition that there is none, another run may have replaced it.
    StudyPointer written = pointer(file);
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
          fileSystem.delete(new Path(folder, name), true);
          own.remove(name);
        } catch (IOException e) {
          // The study is whole without it; the next run finds it again.
        }
      }
    }
  }

  @Override
  public void giveUp() throws IOException {
    if (!perhapsCurrent) {
      fileSystem.delete(new Path(folder, next), true);
    }
  }
}
