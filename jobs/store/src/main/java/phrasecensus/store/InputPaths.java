package phrasecensus.store;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.LocalFileSystem;
import org.apache.hadoop.fs.Path;
import phrasecensus.tables.FileAddress;

/**
 * Hadoop's paths of users' files. Hadoop reads a text with a colon as an address, and looks for a
 * checksum under a name that it reads so too; any name that a disk takes must do here.
 */
public final class InputPaths {
  /** What Java shows for bytes that are no character. */
  static final char NOT_DECODED = '\uFFFD';

  /** In which Java tells the system the names of files; no setting of ours changes it. */
  private static final Charset ENCODING =
      Charset.forName(System.getProperty("sun.jnu.encoding", StandardCharsets.UTF_8.name()));

  private InputPaths() {}

  /** Whether Java can tell the system of a file or folder of this name. */
  static boolean canBeTold(String path) {
    return path.indexOf(NOT_DECODED) < 0 && ENCODING.newEncoder().canEncode(path);
  }

  /** Why it cannot, and what to do: the end of a sentence. */
  static String whyNotTold() {
    return holdsEveryName()
        ? "its name is not valid Unicode (UTF-8). Give it another name."
        : "Java was started with an encoding ("
            + ENCODING
            + ") that cannot hold its name. Set LC_ALL=C.UTF-8, on every machine of a cluster, and"
            + " run the same command again.";
  }

  /** Whether the encoding holds every character. */
  static boolean holdsEveryName() {
    return ENCODING.newEncoder().canEncode("\u00e9\u266d\u6b4c");
  }

  /** The path that a user wrote: an address, or a path on the usual file system. */
  public static Path of(String text) {
    return text.indexOf(':') < 0 || FileAddress.isOne(text)
        ? new Path(text)
        : new Path(null, null, text);
  }

  /** What is called so in a folder. */
  public static Path child(Path folder, String name) {
    return new Path(folder, new Path(null, null, name));
  }

  /** The file system of users' files: a local disk as it is, without Hadoop's own checksums. */
  public static FileSystem fileSystem(Path path, Configuration configuration) throws IOException {
    FileSystem fileSystem = Stores.of(path, configuration);
    return fileSystem instanceof LocalFileSystem local ? local.getRawFileSystem() : fileSystem;
  }

  /** Whether a path is one of this computer's. */
  public static boolean isLocal(Path qualified) {
    return "file".equals(qualified.toUri().getScheme());
  }

  /**
   * Whether there is something that is no file to be read: a pipe, a socket or a device, which may
   * never come to an end. Links are followed.
   */
  public static boolean isNoFile(Path qualified) {
    if (!isLocal(qualified)) {
      return false;
    }
    java.nio.file.Path local = java.nio.file.Path.of(qualified.toUri().getPath());
    return Files.exists(local) && !Files.isRegularFile(local) && !Files.isDirectory(local);
  }
}
