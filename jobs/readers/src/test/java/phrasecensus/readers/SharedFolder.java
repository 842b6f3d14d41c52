package phrasecensus.readers;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;

/** Open data beside the checkout. Tests that need it are skipped where it is absent. */
public final class SharedFolder {
  private SharedFolder() {}

  /** A file or folder in it; ends the test as skipped when it is not there. */
  public static Path existing(String path) {
    String root = System.getProperty("project.root");
    Path found = root == null ? null : Path.of(root, "..", "shared", path).normalize();
    Assumptions.assumeTrue(
        found != null && Files.exists(found), () -> "Skipped: no shared/" + path + " here");
    return found;
  }

  /** The regular files of a folder, sorted by name. */
  public static List<Path> files(Path folder) {
    try (Stream<Path> files = Files.list(folder)) {
      return files.filter(Files::isRegularFile).sorted().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  public static byte[] bytes(Path file) {
    try {
      return Files.readAllBytes(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
