package phrasecensus.store;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import phrasecensus.tables.FileList;
import phrasecensus.tables.FolderMarker;
import phrasecensus.tables.Manifest;

/**
 * Which files in a folder are this program's: those that a {@link FileList} of its own names and
 * whose bytes are as it says. Nothing else is deleted, and nothing else is believed.
 */
final class OwnFiles {
  /** Folder of the lists that tasks wrote of their parts, in a working folder. */
  static final String PARTS = "parts";

  private static final int LARGEST_MARKER = 1 << 12;
  private static final int LARGEST_LIST = 1 << 30;

  private OwnFiles() {}

  /** The list of a folder; {@link FileList#NONE} without one that is this program's. */
  static FileList list(FileSystem fileSystem, Path folder) throws IOException {
    return read(fileSystem, new Path(folder, FileList.FILE_NAME));
  }

  /** A list by its file. */
  static FileList read(FileSystem fileSystem, Path file) throws IOException {
    byte[] bytes = FolderTree.bytes(fileSystem, file, LARGEST_LIST);
    return bytes == null ? FileList.NONE : FileList.parse(bytes);
  }

  /** The marker of a folder; null without one, or with one that is damaged or somebody else's. */
  static FolderMarker marker(FileSystem fileSystem, Path folder) throws IOException {
    byte[] bytes =
        FolderTree.bytes(fileSystem, new Path(folder, FolderMarker.FILE_NAME), LARGEST_MARKER);
    return bytes == null ? null : FolderMarker.parse(bytes);
  }

  /** Whether a folder is a working folder of this program, whole. */
  static boolean isWorking(FileSystem fileSystem, Path folder) throws IOException {
    return FolderTree.isFolder(fileSystem, folder)
        && FolderMarker.working(folder.getName()).equals(marker(fileSystem, folder));
  }

  /** Makes a working folder: its marker is on the disk before anything else is in it. */
  static void makeWorking(FileSystem fileSystem, Path folder) throws IOException {
    try {
      // Writing it makes the folder; on a store, where a folder is nothing, that is all there is.
      Durable.write(
          fileSystem,
          new Path(folder, FolderMarker.FILE_NAME),
          FolderMarker.working(folder.getName()).bytes());
      Durable.force(fileSystem, List.of(folder, folder.getParent()));
    } catch (IOException e) {
      // It has just been made, under a name that nobody else has: on a full disk it must not stay.
      FolderTree.delete(fileSystem, folder);
      throw e;
    }
  }

  /**
   * Whether a folder is a working folder that a run was making when it was killed: there is nothing
   * in it, or the beginning of its marker alone.
   */
  static boolean isHardlyBegun(FileSystem fileSystem, Path folder) throws IOException {
    if (!FolderTree.isFolder(fileSystem, folder)) {
      return false;
    }
    Set<String> names = FolderTree.names(fileSystem, folder).keySet();
    return names.isEmpty()
        || names.equals(Set.of(FolderMarker.FILE_NAME))
            && isBeginning(fileSystem, folder, FolderMarker.working(folder.getName()));
  }

  /** Whether the marker of a folder is one of which only the beginning was written. */
  static boolean isBeginning(FileSystem fileSystem, Path folder, FolderMarker marker)
      throws IOException {
    byte[] bytes =
        FolderTree.bytes(fileSystem, new Path(folder, FolderMarker.FILE_NAME), LARGEST_MARKER);
    byte[] whole = marker.bytes();
    return bytes != null
        && bytes.length < whole.length
        && Arrays.equals(bytes, 0, bytes.length, whole, 0, bytes.length);
  }

  /**
   * What in a working folder may be taken over from a run that was killed: files of the parts whose
   * lists are whole.
   */
  static FileList parts(FileSystem fileSystem, Path working) throws IOException {
    Path records = new Path(working, PARTS);
    Map<String, String> files = new TreeMap<>();
    for (String name : FolderTree.names(fileSystem, records).keySet()) {
      FileList part = read(fileSystem, new Path(records, name));
      if (part.isWhole(FileList.PART)) {
        files.putAll(part.files());
      }
    }
    return FileList.of(FileList.PART, files);
  }

  /**
   * Files of a list that are gone or have other bytes than it says, sorted.
   *
   * @param paths of the list, those to be looked at
   */
  static List<String> differing(
      FileSystem fileSystem, Path folder, FileList list, Collection<String> paths)
      throws IOException {
    try {
      return paths.parallelStream()
          .filter(path -> !isAsListed(fileSystem, folder, list, path))
          .sorted()
          .toList();
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
  }

  /** Whether a file has the bytes of which a list tells; a file that cannot be read has not. */
  static boolean isAsListed(FileSystem fileSystem, Path folder, FileList list, String path) {
    String sha256 = list.files().get(path);
    if (sha256 == null) {
      return false;
    }
    try {
      Path file = new Path(folder, path);
      return FolderTree.isThere(fileSystem, file)
          && sha256.equals(FolderTree.sha256(fileSystem, file));
    } catch (FileNotFoundException e) {
      return false;
    } catch (IOException e) {
      // A disk that cannot read a file any more: it is not as it was written either.
      return false;
    }
  }

  /**
   * What else is in a folder that a list speaks of: files and links that it does not name, sorted.
   */
  static List<String> unlisted(FileSystem fileSystem, Path folder, String below, FileList list)
      throws IOException {
    List<String> unlisted = new ArrayList<>();
    Path start = below.isEmpty() ? folder : new Path(folder, below);
    String prefix = below.isEmpty() ? "" : below + "/";
    FolderTree.below(fileSystem, start)
        .forEach(
            (path, kind) -> {
              if (kind != FolderTree.Kind.FOLDER && !list.files().containsKey(prefix + path)) {
                unlisted.add(prefix + path);
              }
            });
    return unlisted;
  }

  /** Whether a person would not see a file: what systems leave in folders that they show. */
  static boolean isHidden(String path) {
    String name = path.substring(path.lastIndexOf('/') + 1);
    return name.startsWith(".")
        || name.equalsIgnoreCase("Thumbs.db")
        || name.equalsIgnoreCase("desktop.ini");
  }

  /**
   * Deletes the files of a folder that are proven to be this program's, its list and its marker
   * last.
   *
   * @param below folders below it that have lists of their own; no other list counts
   * @param byBytes true to look at the bytes of each file; else its place in the list is enough, as
   *     in a folder with a marker and a random name on a store where every look is a request
   * @return what is left, paths relative to the folder, sorted
   */
  static List<String> delete(
      FileSystem fileSystem, Path folder, List<String> below, boolean byBytes) throws IOException {
    return delete(fileSystem, folder, FolderTree.below(fileSystem, folder), below, byBytes);
  }

  /** Deletes what was written by renaming, manifest and tables, from the folder of a study. */
  static List<String> deleteTables(FileSystem fileSystem, Path study) throws IOException {
    Map<String, FolderTree.Kind> found = new TreeMap<>();
    FolderTree.names(fileSystem, study)
        .forEach(
            (name, kind) -> {
              if (name.equals(Manifest.FILE_NAME) || name.equals(FileList.FILE_NAME)) {
                found.put(name, kind);
              }
            });
    Path tables = new Path(study, RenamedPlaces.TABLES);
    FolderTree.below(fileSystem, tables)
        .forEach((path, kind) -> found.put(RenamedPlaces.TABLES + "/" + path, kind));
    List<String> rest = delete(fileSystem, study, found, List.of(), true);
    FolderTree.deleteEmpty(fileSystem, tables);
    return rest;
  }

  private static List<String> delete(
      FileSystem fileSystem,
      Path folder,
      Map<String, FolderTree.Kind> found,
      List<String> below,
      boolean byBytes)
      throws IOException {
    Map<String, FileList> lists = new TreeMap<>();
    List<String> prefixes = new ArrayList<>(List.of(""));
    below.forEach(each -> prefixes.add(each + "/"));
    for (String prefix : prefixes) {
      if (found.containsKey(prefix + FileList.FILE_NAME)) {
        FileList list = read(fileSystem, new Path(folder, prefix + FileList.FILE_NAME));
        if (!list.equals(FileList.NONE)) {
          lists.put(prefix, list);
        }
      }
    }
    List<String> files = new ArrayList<>();
    List<String> own = new ArrayList<>();
    found.forEach(
        (path, kind) -> {
          if (kind != FolderTree.Kind.FOLDER) {
            files.add(path);
          }
        });
    files.parallelStream()
        .filter(path -> found.get(path) == FolderTree.Kind.FILE)
        .filter(path -> isOwn(fileSystem, folder, path, lists, byBytes))
        .forEachOrdered(own::add);
    List<String> last = new ArrayList<>();
    for (String prefix : lists.keySet()) {
      last.add(prefix + FileList.FILE_NAME);
    }
    if (found.containsKey(FolderMarker.FILE_NAME) && marker(fileSystem, folder) != null) {
      last.add(FolderMarker.FILE_NAME);
    }
    own.removeAll(last);
    List<String> rest = new ArrayList<>(files);
    rest.removeAll(own);
    rest.removeAll(last);
    List<String> single = new ArrayList<>(own);
    if (!byBytes) {
      // Deleted at once: on a store every file would be some requests.
      for (String inside : foldersOf(own)) {
        if (foldersOf(rest).contains(inside) || foldersOf(last).contains(inside)) {
          continue;
        }
        try {
          FolderTree.delete(fileSystem, new Path(folder, inside));
          single.removeIf(path -> path.startsWith(inside + "/"));
        } catch (IOException e) {
          // Not every store deletes many at once: one by one, below.
        }
      }
    }
    single.addAll(last);
    for (String path : single) {
      fileSystem.delete(new Path(folder, path), false);
    }
    return rest;
  }

  /** The folders, directly in the one that paths are relative to, in which they lie. */
  private static Set<String> foldersOf(List<String> paths) {
    Set<String> folders = new TreeSet<>();
    for (String path : paths) {
      if (path.indexOf('/') >= 0) {
        folders.add(path.substring(0, path.indexOf('/')));
      }
    }
    return folders;
  }

  private static boolean isOwn(
      FileSystem fileSystem,
      Path folder,
      String path,
      Map<String, FileList> lists,
      boolean byBytes) {
    for (Map.Entry<String, FileList> entry : lists.entrySet()) {
      String prefix = entry.getKey();
      if (path.startsWith(prefix)) {
        String relative = path.substring(prefix.length());
        FileList list = entry.getValue();
        if (list.files().containsKey(relative)
            && (!byBytes && list.whole()
                || isAsListed(
                    fileSystem,
                    prefix.isEmpty() ? folder : new Path(folder, prefix),
                    list,
                    relative))) {
          return true;
        }
      }
    }
    if (path.startsWith(PARTS + "/")) {
      try {
        return read(fileSystem, new Path(folder, path)).isWhole(FileList.PART);
      } catch (IOException e) {
        return false;
      }
    }
    return false;
  }
}
