package phrasecensus.store.export;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.UUID;
import java.util.function.Consumer;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import phrasecensus.store.Durable;
import phrasecensus.tables.FolderMarker;
import phrasecensus.tables.InputException;
import phrasecensus.tables.Sha256;
import phrasecensus.tables.export.DataPackage;

/**
 * The folder of an export while it is made. Files are written aside, in a hidden folder of a random
 * name beside it, and made current by renaming when all are there and on the disk. An earlier
 * export gives way only when it says that it is one and is as it was written, so that nobody loses
 * a notebook they worked in, or a data package of their own.
 */
final class ExportFolder implements AutoCloseable {
  /** Lists every other file with its SHA-256, as {@code sha256sum} writes and checks it. */
  static final String CHECKSUMS = "SHA256SUMS";

  private static final String PREVIOUS = "previous";

  private final Path folder;
  private final Path working;
  private final Path next;
  private final Consumer<String> told;

  private ExportFolder(Path folder, Consumer<String> told) {
    this.folder = folder;
    this.told = told;
    this.working =
        folder.resolveSibling(
            workingPrefix(folder) + UUID.randomUUID().toString().replace("-", ""));
    this.next = working.resolve("export");
  }

  private static String workingPrefix(Path folder) {
    return "." + folder.getFileName() + "-";
  }

  /**
   * Opens a folder for an export: a new or empty one, or one that holds an untouched export.
   *
   * @param told takes a sentence about files that were found and are not this program's
   * @throws InputException if it holds anything else or cannot be written
   */
  static ExportFolder at(String location, Consumer<String> told) {
    Path path = Path.of(location).toAbsolutePath().normalize();
    if (path.getFileName() == null) {
      throw new InputException("Cannot export into " + location + ": name a folder of its own.");
    }
    try {
      ExportFolder export =
          new ExportFolder(Files.isSymbolicLink(path) ? path.toRealPath() : path, told);
      export.recover();
      export.check(location);
      Files.createDirectories(export.next);
      Files.write(
          export.working.resolve(FolderMarker.FILE_NAME),
          FolderMarker.working(export.working.getFileName().toString()).bytes());
      Durable.force(
          List.of(
              export.working.resolve(FolderMarker.FILE_NAME),
              export.working,
              export.working.getParent()));
      Files.write(
          export.file(FolderMarker.FILE_NAME), FolderMarker.of(FolderMarker.Kind.EXPORT).bytes());
      return export;
    } catch (NoSuchFileException e) {
      throw new InputException(
          "Cannot export into " + location + ": it is a link that leads nowhere.", e);
    } catch (IOException e) {
      throw new InputException("Cannot export into " + location + ": " + reason(e) + ".", e);
    }
  }

  /** Finishes what runs left that were killed: by their markers, never by a name. */
  private void recover() throws IOException {
    Path parent = folder.getParent();
    if (!Files.isDirectory(parent)) {
      return;
    }
    Pattern name = Pattern.compile(Pattern.quote(workingPrefix(folder)) + "[0-9a-f]{32}");
    List<Path> left;
    try (Stream<Path> siblings = Files.list(parent)) {
      left =
          siblings
              .filter(path -> name.matcher(path.getFileName().toString()).matches())
              .filter(ExportFolder::isWorking)
              .toList();
    }
    for (Path each : left) {
      Path previous = each.resolve(PREVIOUS);
      if (Files.isDirectory(previous, LinkOption.NOFOLLOW_LINKS)
          && !Files.exists(folder, LinkOption.NOFOLLOW_LINKS)) {
        // Killed between the two renames: the earlier export stands again.
        Files.move(previous, folder);
      }
      sweep(each);
    }
  }

  private static boolean isWorking(Path path) {
    FolderMarker marker = marker(path);
    return Files.isDirectory(path, LinkOption.NOFOLLOW_LINKS)
        && FolderMarker.working(path.getFileName().toString()).equals(marker);
  }

  /** Whether a folder is an export, by its marker, or where that is gone by its other files. */
  static boolean isIn(Path path) {
    FolderMarker marker = marker(path);
    return marker != null
        ? marker.kind() == FolderMarker.Kind.EXPORT
        : Files.exists(path.resolve(CHECKSUMS))
            && Files.exists(path.resolve(DataPackage.FILE_NAME));
  }

  private static FolderMarker marker(Path path) {
    try {
      return FolderMarker.parse(Files.readAllBytes(path.resolve(FolderMarker.FILE_NAME)));
    } catch (IOException e) {
      return null;
    }
  }

  private void check(String location) throws IOException {
    if (!Files.exists(folder, LinkOption.NOFOLLOW_LINKS)) {
      return;
    }
    if (!Files.isDirectory(folder)) {
      throw new InputException("Cannot export into " + location + ": it is a file, not a folder.");
    }
    List<String> entries = entries(folder);
    if (entries.isEmpty()) {
      return;
    }
    FolderMarker marker = marker(folder);
    if (marker == null
        || marker.kind() != FolderMarker.Kind.EXPORT
        || !entries.contains(CHECKSUMS)) {
      throw new InputException(
          "Cannot export into "
              + location
              + ": the folder is not empty and holds no export of this program. Nothing was"
              + " touched; name a new or empty folder with --into.");
    }
    List<String> others = others(folder);
    if (!others.isEmpty()) {
      throw new InputException(
          "Cannot export into "
              + location
              + ": "
              + others.get(0)
              + " was added or changed since the export that is there. Nothing was touched; move"
              + " it elsewhere, or name another folder with --into.");
    }
  }

  /** What in an export is not as its checksums say: files, links and folders, sorted. */
  static List<String> others(Path export) throws IOException {
    Map<String, String> written = checksums(export);
    List<String> others = new ArrayList<>();
    for (String entry : entries(export)) {
      Path path = export.resolve(entry);
      boolean own =
          Files.isDirectory(path, LinkOption.NOFOLLOW_LINKS)
              ? written.keySet().stream().anyMatch(file -> file.startsWith(entry + "/"))
              : entry.equals(CHECKSUMS) && isAsWritten(export, written)
                  || Files.isRegularFile(path, LinkOption.NOFOLLOW_LINKS)
                      && digest(path).equals(written.get(entry));
      if (!own) {
        others.add(entry);
      }
    }
    return others;
  }

  /** Files that an export lists and does not have, sorted. */
  static List<String> missing(Path export) throws IOException {
    return checksums(export).keySet().stream()
        .filter(file -> !Files.exists(export.resolve(file), LinkOption.NOFOLLOW_LINKS))
        .toList();
  }

  private static boolean isAsWritten(Path export, Map<String, String> written) throws IOException {
    StringBuilder text = new StringBuilder();
    written.forEach((file, sum) -> text.append(line(sum, file)));
    return Arrays.equals(
        Files.readAllBytes(export.resolve(CHECKSUMS)),
        text.toString().getBytes(StandardCharsets.UTF_8));
  }

  private static String line(String sum, String file) {
    return sum + "  " + file + '\n';
  }

  /** SHA-256 by path, as an export says. */
  static Map<String, String> checksums(Path export) throws IOException {
    Map<String, String> written = new TreeMap<>();
    Path file = export.resolve(CHECKSUMS);
    if (!Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
      return written;
    }
    // A damaged list may hold bytes that are no text.
    for (String line : new String(Files.readAllBytes(file), StandardCharsets.UTF_8).split("\n")) {
      if (line.length() > 66) {
        written.put(line.substring(66), line.substring(0, 64));
      }
    }
    return written;
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
    List<Path> forced = new ArrayList<>(List.of(next, working));
    for (String entry : entries(next)) {
      forced.add(next.resolve(entry));
      if (!Files.isDirectory(next.resolve(entry))) {
        sums.append(line(digest(entry), entry));
      }
    }
    write(CHECKSUMS, sums.toString());
    forced.add(next.resolve(CHECKSUMS));
    Durable.force(forced);
    if (Files.exists(folder, LinkOption.NOFOLLOW_LINKS)) {
      Files.move(folder, working.resolve(PREVIOUS));
    }
    Files.move(next, folder);
    Durable.force(List.of(folder.getParent()));
    sweep(working);
  }

  /** Deletes a working folder, but of an export that was current only what is as it was written. */
  private void sweep(Path swept) throws IOException {
    Path previous = swept.resolve(PREVIOUS);
    if (Files.isDirectory(previous, LinkOption.NOFOLLOW_LINKS)) {
      List<String> others = others(previous);
      List<String> entries = new ArrayList<>(entries(previous));
      entries.removeAll(others);
      Collections.reverse(entries);
      for (String entry : entries) {
        Path path = previous.resolve(entry);
        if (!Files.isDirectory(path, LinkOption.NOFOLLOW_LINKS) || isEmpty(path)) {
          Files.delete(path);
        }
      }
      if (isEmpty(previous)) {
        Files.delete(previous);
      } else {
        Path kept =
            folder.resolveSibling(
                folder.getFileName()
                    + "-set-aside-"
                    + UUID.randomUUID().toString().substring(0, 8));
        Files.move(previous, kept);
        told.accept(
            "Not as this program wrote it, and kept in "
                + kept
                + ": "
                + (others.isEmpty() ? "files of the earlier export" : others.get(0))
                + ". Delete it when nobody needs it.");
      }
    }
    delete(swept);
  }

  private static boolean isEmpty(Path path) throws IOException {
    try (Stream<Path> inside = Files.list(path)) {
      return inside.findAny().isEmpty();
    }
  }

  /** Paths of everything below a folder with {@code /}, sorted; links are not followed. */
  private static List<String> entries(Path path) throws IOException {
    try (Stream<Path> paths = Files.walk(path)) {
      return paths
          .filter(each -> !each.equals(path))
          .map(each -> path.relativize(each).toString().replace('\\', '/'))
          .sorted()
          .toList();
    }
  }

  private static void delete(Path path) throws IOException {
    if (!Files.exists(path, LinkOption.NOFOLLOW_LINKS)) {
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
      Path previous = working.resolve(PREVIOUS);
      boolean given = Files.exists(previous, LinkOption.NOFOLLOW_LINKS);
      if (given && !Files.exists(folder, LinkOption.NOFOLLOW_LINKS)) {
        Files.move(previous, folder);
        given = false;
      }
      if (!given) {
        delete(working);
      }
    } catch (IOException e) {
      // The next export into the same folder deletes it.
    }
  }
}
