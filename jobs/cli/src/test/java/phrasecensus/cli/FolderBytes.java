package phrasecensus.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import phrasecensus.tables.Sha256;

/** Everything in a folder by path, each file as the digest of its bytes; hidden ones included. */
final class FolderBytes {
  private FolderBytes() {}

  static SortedMap<String, String> of(Path folder) {
    SortedMap<String, String> digests = new TreeMap<>();
    try (Stream<Path> paths = Files.walk(folder)) {
      for (Path path : paths.toList()) {
        String name = folder.relativize(path).toString().replace('\\', '/');
        digests.put(name, Files.isDirectory(path) ? "folder" : Sha256.of(Files.readAllBytes(path)));
      }
      return digests;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Copies a folder with all that is in it; returns the copy. */
  static Path copy(Path folder, Path copy) {
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.toList()) {
        Files.copy(file, copy.resolve(folder.relativize(file).toString()));
      }
      return copy;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Deletes a folder with all that is in it. */
  static void delete(Path folder) {
    try (Stream<Path> paths = Files.walk(folder)) {
      for (Path path : paths.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(path);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
