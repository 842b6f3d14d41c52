package phrasecensus.store.parquet;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.security.MessageDigest;
import java.util.HexFormat;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FSDataOutputStream;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import org.apache.hadoop.fs.StreamCapabilities;
import org.apache.parquet.hadoop.util.HadoopOutputFile;
import org.apache.parquet.hadoop.util.HadoopStreams;
import org.apache.parquet.io.OutputFile;
import org.apache.parquet.io.PositionOutputStream;
import phrasecensus.tables.Sha256;

/**
 * A file that Parquet's library writes, whose stream is within reach: the library can only close
 * it, and so would put half a file in its place.
 */
final class StoredFile implements OutputFile {
  private static final int BUFFER = 8192;

  /** What is longer is no footer of a table: some kilobytes are usual. */
  private static final int LONGEST_FOOTER = 1 << 20;

  private final Path path;
  private final FileSystem fileSystem;
  private final HadoopOutputFile usual;
  private final MessageDigest digest = Sha256.digest();
  private FSDataOutputStream stream;
  private String sha256;
  private long bytes;

  StoredFile(Path path, Configuration configuration) throws IOException {
    this.path = path;
    this.fileSystem = path.getFileSystem(configuration);
    this.usual = HadoopOutputFile.fromPath(path, configuration);
  }

  @Override
  public PositionOutputStream create(long blockSizeHint) throws IOException {
    return opened(false, blockSizeHint);
  }

  @Override
  public PositionOutputStream createOrOverwrite(long blockSizeHint) throws IOException {
    return opened(true, blockSizeHint);
  }

  private PositionOutputStream opened(boolean overwrite, long blockSizeHint) throws IOException {
    stream =
        fileSystem.create(
            path,
            overwrite,
            BUFFER,
            fileSystem.getDefaultReplication(path),
            Math.max(fileSystem.getDefaultBlockSize(path), blockSizeHint));
    return new Digested(HadoopStreams.wrap(stream));
  }

  /** SHA-256 of the bytes; null before the file is closed. */
  String sha256() {
    return sha256;
  }

  /** Size of the closed file. */
  long bytes() {
    return bytes;
  }

  /**
   * Digests what passes, sorts the footer, and forces the file out where its stream can do that.
   *
   * <p>The library asks for the place before it writes the footer and again before it writes how
   * long that was: what was written between is held back until the next, to be sorted at the end.
   */
  private final class Digested extends PositionOutputStream {
    private final PositionOutputStream to;
    private byte[] held = {};
    private ByteArrayOutputStream last = new ByteArrayOutputStream();

    Digested(PositionOutputStream to) {
      this.to = to;
    }

    @Override
    public long getPos() throws IOException {
      if (last.size() > 0) {
        pass(held);
        held = last.toByteArray();
        last = new ByteArrayOutputStream();
      }
      return to.getPos() + held.length;
    }

    @Override
    public void write(int value) throws IOException {
      last.write(value);
    }

    @Override
    public void write(byte[] buffer, int offset, int length) throws IOException {
      if (last.size() + length <= LONGEST_FOOTER) {
        last.write(buffer, offset, length);
        return;
      }
      passHeld();
      to.write(buffer, offset, length);
      digest.update(buffer, offset, length);
    }

    private void passHeld() throws IOException {
      pass(held);
      held = new byte[0];
      pass(last.toByteArray());
      last = new ByteArrayOutputStream();
    }

    private void pass(byte[] part) throws IOException {
      to.write(part, 0, part.length);
      digest.update(part);
    }

    @Override
    public void flush() throws IOException {
      to.flush();
    }

    @Override
    public void close() throws IOException {
      if (sha256 != null) {
        return;
      }
      try (to) {
        if (FileFooter.isEnd(last.toByteArray(), held.length)) {
          pass(FileFooter.sorted(held));
        } else {
          passHeld();
        }
        bytes = to.getPos();
        to.flush();
        if (!isLocal() && stream.hasCapability(StreamCapabilities.HSYNC)) {
          stream.hsync();
        }
      }
      sha256 = HexFormat.of().formatHex(digest.digest());
    }
  }

  /** Files of a local disk are forced out by name, many at once. */
  private boolean isLocal() {
    return fileSystem.getUri().getScheme().equals("file");
  }

  /** Sees to it that nothing of the file is ever there; only where the store can do that. */
  void abort() {
    stream.abort();
  }

  @Override
  public boolean supportsBlockSize() {
    return usual.supportsBlockSize();
  }

  @Override
  public long defaultBlockSize() {
    return usual.defaultBlockSize();
  }

  @Override
  public String getPath() {
    return usual.getPath();
  }

  @Override
  public String toString() {
    return path.toString();
  }
}
