package phrasecensus.store;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.apache.hadoop.fs.FileStatus;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.LocatedFileStatus;
import org.apache.hadoop.fs.Path;
import org.apache.hadoop.fs.RemoteIterator;
import phrasecensus.store.parquet.FileEnd;
import phrasecensus.tables.Sha256;

/**
 * What lies below a folder, links and all: Hadoop's listing of a local disk follows links and
 * leaves out those that lead nowhere, and what is deleted by such a listing may be somebody's.
 */
final class FolderTree {
  private static final int BUFFER = 1 << 16;

  /** What an entry is. A link is never followed. */
  enum Kind {
    FILE,
    FOLDER,
    LINK
  }

  private FolderTree() {}

  /** A path of a local disk. */
  static java.nio.file.Path local(Path path) {
    return java.nio.file.Path.of(path.toUri().getPath());
  }

  /** Names in a folder and what they are, sorted; none when it is not there, or is no folder. */
  static Map<String, Kind> names(FileSystem fileSystem, Path folder) throws IOException {
    Map<String, Kind> names = new TreeMap<>();
    if (StudyPlaces.isLocal(fileSystem)) {
      try (Stream<java.nio.file.Path> listed = Files.list(local(folder))) {
        listed.forEach(path -> names.put(path.getFileName().toString(), kind(path)));
      } catch (NoSuchFileException | NotDirectoryException e) {
        // Nothing is there.
      } catch (UncheckedIOException e) {
        throw e.getCause();
      }
      return names;
    }
    try {
      for (FileStatus status : fileSystem.listStatus(folder)) {
        if (status.getPath().toUri().getPath().equals(folder.toUri().getPath())) {
          // Hadoop lists a file as if it lay in itself, as it does the mark of an empty folder.
          continue;
        }
        names.put(
            status.getPath().getName(),
            status.isSymlink() ? Kind.LINK : status.isDirectory() ? Kind.FOLDER : Kind.FILE);
      }
    } catch (FileNotFoundException e) {
      // An object store has no folder until something is in it.
    }
    return names;
  }

  private static Kind kind(java.nio.file.Path path) {
    return Files.isSymbolicLink(path)
        ? Kind.LINK
        : Files.isDirectory(path, LinkOption.NOFOLLOW_LINKS) ? Kind.FOLDER : Kind.FILE;
  }

  /** Whether a path is a folder, and not a link to one. */
  static boolean isFolder(FileSystem fileSystem, Path path) throws IOException {
    if (StudyPlaces.isLocal(fileSystem)) {
      return Files.isDirectory(local(path), LinkOption.NOFOLLOW_LINKS);
    }
    try {
      return fileSystem.getFileStatus(path).isDirectory();
    } catch (FileNotFoundException e) {
      return false;
    }
  }

  /** Whether anything is there, a link that leads nowhere too. */
  static boolean isThere(FileSystem fileSystem, Path path) throws IOException {
    return StudyPlaces.isLocal(fileSystem)
        ? Files.exists(local(path), LinkOption.NOFOLLOW_LINKS)
        : fileSystem.exists(path);
  }

  /**
   * Everything below a folder by its path relative to it, with {@code /}; folders too, but those in
   * which nothing is on a local disk alone.
   */
  static Map<String, Kind> below(FileSystem fileSystem, Path folder) throws IOException {
    Map<String, Kind> found = new TreeMap<>();
    if (StudyPlaces.isLocal(fileSystem)) {
      add(fileSystem, folder, "", found);
    } else {
      for (String path : files(fileSystem, folder).keySet()) {
        found.put(path, Kind.FILE);
        for (int end = path.indexOf('/'); end > 0; end = path.indexOf('/', end + 1)) {
          found.put(path.substring(0, end), Kind.FOLDER);
        }
      }
    }
    return found;
  }

  /**
   * The files below a folder that is on no local disk, by their paths relative to it, and their
   * sizes in bytes. A store lists a thousand in one request, however many folders they are in.
   */
  static Map<String, Long> files(FileSystem fileSystem, Path folder) throws IOException {
    Map<String, Long> files = new TreeMap<>();
    String root = folder.toUri().getPath() + "/";
    try {
      RemoteIterator<LocatedFileStatus> listed = fileSystem.listFiles(folder, true);
      while (listed.hasNext()) {
        LocatedFileStatus status = listed.next();
        String path = status.getPath().toUri().getPath();
        // Hadoop lists a file as if it lay in itself.
        if (path.startsWith(root)) {
          files.put(path.substring(root.length()), status.getLen());
        }
      }
    } catch (FileNotFoundException e) {
      // An object store has no folder until something is in it.
    }
    return files;
  }

  private static void add(
      FileSystem fileSystem, Path folder, String prefix, Map<String, Kind> found)
      throws IOException {
    for (Map.Entry<String, Kind> entry : names(fileSystem, folder).entrySet()) {
      String path = prefix + entry.getKey();
      found.put(path, entry.getValue());
      if (entry.getValue() == Kind.FOLDER) {
        add(fileSystem, new Path(folder, entry.getKey()), path + "/", found);
      }
    }
  }

  /** SHA-256 of a file's bytes. */
  static String sha256(FileSystem fileSystem, Path file) throws IOException {
    return sha256(fileSystem, file, null);
  }

  /**
   * The same.
   *
   * @param end takes the bytes as they pass; null where nobody asks for them
   */
  static String sha256(FileSystem fileSystem, Path file, FileEnd end) throws IOException {
    MessageDigest digest = Sha256.digest();
    byte[] buffer = new byte[BUFFER];
    try (InputStream stream = fileSystem.open(file)) {
      for (int read = stream.read(buffer); read >= 0; read = stream.read(buffer)) {
        digest.update(buffer, 0, read);
        if (end != null) {
          end.add(buffer, read);
        }
      }
    }
    return HexFormat.of().formatHex(digest.digest());
  }

  /** The bytes of a small file; null when it is not there, or no file. */
  static byte[] bytes(FileSystem fileSystem, Path file, int most) throws IOException {
    if (StudyPlaces.isLocal(fileSystem)
        && !Files.isRegularFile(local(file), LinkOption.NOFOLLOW_LINKS)) {
      return null;
    }
    try (InputStream stream = fileSystem.open(file)) {
      return stream.readNBytes(most);
    } catch (FileNotFoundException e) {
      return null;
    }
  }

  /**
   * Deletes a folder with everything in it. Links in it are deleted, not what they lead to. Only
   * for what is known to be this program's whole.
   */
  static void delete(FileSystem fileSystem, Path folder) throws IOException {
    if (!StudyPlaces.isLocal(fileSystem)) {
      fileSystem.delete(folder, true);
      return;
    }
    if (!Files.exists(local(folder), LinkOption.NOFOLLOW_LINKS)) {
      return;
    }
    List<java.nio.file.Path> paths;
    try (Stream<java.nio.file.Path> walked = Files.walk(local(folder))) {
      paths = new ArrayList<>(walked.toList());
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
    java.util.Collections.reverse(paths);
    for (java.nio.file.Path path : paths) {
      Files.deleteIfExists(path);
    }
  }

  /** Deletes a folder when it is empty, and those below it that are. */
  static void deleteEmpty(FileSystem fileSystem, Path folder) throws IOException {
    if (!isFolder(fileSystem, folder)) {
      return;
    }
    Map<String, Kind> names = names(fileSystem, folder);
    if (names.containsValue(Kind.FOLDER)) {
      for (Map.Entry<String, Kind> entry : names.entrySet()) {
        if (entry.getValue() == Kind.FOLDER) {
          deleteEmpty(fileSystem, new Path(folder, entry.getKey()));
        }
      }
      names = names(fileSystem, folder);
    }
    if (names.isEmpty()) {
      fileSystem.delete(folder, false);
    }
  }
}
