package phrasecensus.store;

import java.io.IOException;
import java.io.InputStream;
import java.security.MessageDigest;
import java.util.HexFormat;
import org.apache.hadoop.fs.FSDataOutputStream;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import phrasecensus.store.parquet.FileEnd;
import phrasecensus.tables.Sha256;

/**
 * A copy of a file, and what its bytes were when they passed.
 *
 * @param sha256 of the bytes
 * @param bytes how many
 * @param end the last of them
 */
record FileCopy(String sha256, long bytes, FileEnd end) {
  private static final int BUFFER = 1 << 16;

  /** Copies within a file system; a file that is there is replaced. */
  static FileCopy of(FileSystem fileSystem, Path from, Path to) throws IOException {
    return of(fileSystem, from, fileSystem, to);
  }

  /**
   * Copies a file. Where the stream of the copy can be given up, a copy that fails never was there.
   * On a local disk it is not forced out yet.
   */
  static FileCopy of(FileSystem source, Path from, FileSystem target, Path to) throws IOException {
    MessageDigest digest = Sha256.digest();
    byte[] buffer = new byte[BUFFER];
    long bytes = 0;
    FileEnd end = new FileEnd();
    try (InputStream stream = source.open(from)) {
      FSDataOutputStream copy = target.create(to, true);
      try {
        for (int read = stream.read(buffer); read >= 0; read = stream.read(buffer)) {
          copy.write(buffer, 0, read);
          digest.update(buffer, 0, read);
          end.add(buffer, read);
          bytes += read;
        }
      } catch (IOException | RuntimeException e) {
        if (target.hasPathCapability(
            to, org.apache.hadoop.fs.CommonPathCapabilities.ABORTABLE_STREAM)) {
          copy.abort();
        }
        copy.close();
        throw e;
      }
      if (StudyPlaces.isLocal(target)) {
        copy.close();
      } else {
        Durable.close(copy);
      }
    }
    return new FileCopy(HexFormat.of().formatHex(digest.digest()), bytes, end);
  }
}
