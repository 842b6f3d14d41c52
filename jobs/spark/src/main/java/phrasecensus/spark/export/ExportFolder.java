package phrasecensus.spark.export;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.List;
import java.util.TreeMap;
import java.util.stream.Stream;
import phrasecensus.tables.InputException;
import phrasecensus.tables.Sha256;
import phrasecensus.tables.export.DataPackage;

/**
 * The folder of an export while it is made. Files are written aside, in a hidden folder beside it,
 * and made current by renaming when all are there. An earlier export gives way only when it is as
 * it was written, so that nobody loses a notebook they worked in.
 */
final class ExportFolder implements AutoCloseable {
  /** Lists every other file with its SHA-256, as {@code sha256sum} writes and checks it. */
  static final String CHECKSUMS = "SHA256SUMS";

  private final Path folder;
  private final Path next;
  private final Path previous;

  private ExportFolder(Path folder) {
    this.folder = folder;
    this.next = folder.resolveSibling("." + folder.getFileName() + ".next");
    this.previous = folder.resolveSibling("." + folder.getFileName() + ".previous");
  }

  /**
   * Opens a folder for an export: a new or empty one, or one that holds an untouched export.
   *
   * @throws InputException if it holds anything else or cannot be written
   */
  static ExportFolder at(String location) {
    Path path = Path.of(location).toAbsolutePath().normalize();
    if (path.getFileName() == null) {
      throw new InputException("Cannot export into " + location + ": name a folder of its own.");
    }
    ExportFolder export = new ExportFolder(path);
    try {
      if (!Files.exists(export.folder) && Files.isDirectory(export.previous)) {
        // A run was killed between the two renames: the earlier export stands again.
        Files.move(export.previous, export.folder);
      }
      export.check(location);
      delete(export.previous);
      delete(export.next);
      Files.createDirectories(export.next);
      return export;
    } catch (IOException e) {
      throw new InputException("Cannot export into " + location + ": " + reason(e) + ".", e);
    }
  }

  private void check(String location) throws IOException {
    if (!Files.exists(folder)) {
      return;
    }
    if (!Files.isDirectory(folder)) {
      throw new InputException("Cannot export into " + location + ": it is a file, not a folder.");
    }
    List<String> files = files(folder);
    if (files.isEmpty()) {
      return;
    }
    if (!files.contains(CHECKSUMS) || !files.contains(DataPackage.FILE_NAME)) {
      throw new InputException(
          "Cannot export into "
              + location
              + ": the folder is not empty and holds no export of this program. Nothing was"
              + " touched; name a new or empty folder with --into.");
    }
    TreeMap<String, String> written = new TreeMap<>();
    for (String line : Files.readAllLines(folder.resolve(CHECKSUMS), StandardCharsets.UTF_8)) {
      if (line.length() > 66) {
        written.put(line.substring(66), line.substring(0, 64));
      }
    }
    for (String file : files) {
      if (!file.equals(CHECKSUMS) && !digest(folder.resolve(file)).equals(written.get(file))) {
        throw new InputException(
            "Cannot export into "
                + location
                + ": "
                + file
                + " was added or changed since the export that is there. Nothing was touched; move"
                + " it elsewhere, or name another folder with --into.");
      }
    }
  }

  /** Where a file is to be written; its folder is made. */
  Path file(String name) throws IOException {
    Path file = next.resolve(name);
    Files.createDirectories(file.getParent());
    return file;
  }

  /** Writes a text. */
  void write(String name, String text) throws IOException {
    Files.writeString(file(name), text, StandardCharsets.UTF_8);
  }

  /** Size and checksum of a written file. */
  DataPackage.WrittenFile written(String name) throws IOException {
    return new DataPackage.WrittenFile(name, Files.size(next.resolve(name)), digest(name));
  }

  private String digest(String name) throws IOException {
    return digest(next.resolve(name));
  }

  private static String digest(Path file) throws IOException {
    MessageDigest digest = Sha256.digest();
    byte[] buffer = new byte[1 << 16];
    try (InputStream stream = Files.newInputStream(file)) {
      for (int read = stream.read(buffer); read >= 0; read = stream.read(buffer)) {
        digest.update(buffer, 0, read);
      }
    }
    return HexFormat.of().formatHex(digest.digest());
  }

  /** Makes what was written the export. */
  void commit() throws IOException {
    StringBuilder sums = new StringBuilder();
    for (String file : files(next)) {
      sums.append(digest(file)).append("  ").append(file).append('\n');
    }
    write(CHECKSUMS, sums.toString());
    if (Files.exists(folder)) {
      Files.move(folder, previous);
    }
    Files.move(next, folder);
    delete(previous);
  }

  /** Paths of the files below a folder with {@code /}, sorted. */
  private static List<String> files(Path folder) throws IOException {
    try (Stream<Path> paths = Files.walk(folder)) {
      return paths
          .filter(path -> !Files.isDirectory(path))
          .map(path -> folder.relativize(path).toString().replace('\\', '/'))
          .sorted()
          .toList();
    }
  }

  private static void delete(Path path) throws IOException {
    if (!Files.exists(path)) {
      return;
    }
    try (Stream<Path> paths = Files.walk(path)) {
      for (Path each : paths.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(each);
      }
    }
  }

  static String reason(IOException e) {
    if (e instanceof java.nio.file.AccessDeniedException) {
      return "no permission to write there";
    }
    String message = e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
    return message.lines().findFirst().orElse(message);
  }

  /** Deletes what was written and not committed. */
  @Override
  public void close() {
    try {
      delete(next);
    } catch (IOException e) {
      // The next export into the same folder deletes it.
    }
  }
}
