package phrasecensus.spark;

import java.io.IOException;
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
final class InputPaths {
  private InputPaths() {}

  /** The path that a user wrote: an address, or a path on the usual file system. */
  static Path of(String text) {
    return text.indexOf(':') < 0 || FileAddress.isOne(text)
        ? new Path(text)
        : new Path(null, null, text);
  }

  /** What is called so in a folder. */
  static Path child(Path folder, String name) {
    return new Path(folder, new Path(null, null, name));
  }

  /** The file system of users' files: a local disk as it is, without Hadoop's own checksums. */
  static FileSystem fileSystem(Path path, Configuration configuration) throws IOException {
    FileSystem fileSystem = path.getFileSystem(configuration);
    return fileSystem instanceof LocalFileSystem local ? local.getRawFileSystem() : fileSystem;
  }

  /** Whether a path is one of this computer's. */
  static boolean isLocal(Path qualified) {
    return "file".equals(qualified.toUri().getScheme());
  }

  /**
   * Whether there is something that is no file to be read: a pipe, a socket or a device, which may
   * never come to an end. Links are followed.
   */
  static boolean isNoFile(Path qualified) {
    if (!isLocal(qualified)) {
      return false;
    }
    java.nio.file.Path local = java.nio.file.Path.of(qualified.toUri().getPath());
    return Files.exists(local) && !Files.isRegularFile(local) && !Files.isDirectory(local);
  }
}
