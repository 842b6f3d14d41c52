package phrasecensus.spark;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.StandardOpenOption;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FSDataInputStream;
import org.apache.hadoop.fs.FSInputStream;
import org.apache.hadoop.fs.FileStatus;
import org.apache.hadoop.fs.Path;
import org.apache.hadoop.fs.RawLocalFileSystem;
import org.apache.hadoop.security.AccessControlException;

/**
 * A folder of the local disk under addresses as in {@code faulty:/some/folder}, in which what is
 * wrong with a file or folder is the beginning of its name: {@code shut} may not be read, {@code
 * gone} is listed and not there, {@code failing} breaks off in the middle. As root, who may read
 * everything, a disk shows none of this.
 */
final class FaultyFileSystem extends RawLocalFileSystem {
  private static final URI NAME = URI.create("faulty:///");

  /** The address of a local folder or file. */
  static String address(java.nio.file.Path local) {
    return "faulty:" + local.toAbsolutePath();
  }

  /** Lets Hadoop know the scheme. */
  static void register(Configuration configuration) {
    configuration.set("fs.faulty.impl", FaultyFileSystem.class.getName());
  }

  @Override
  public URI getUri() {
    return NAME;
  }

  @Override
  public String getScheme() {
    return NAME.getScheme();
  }

  private static void refuseWhatIsShut(Path path) throws AccessControlException {
    if (path.getName().startsWith("shut")) {
      throw new AccessControlException("Permission denied: " + path);
    }
  }

  @Override
  public FileStatus[] listStatus(Path path) throws IOException {
    refuseWhatIsShut(path);
    return super.listStatus(path);
  }

  @Override
  public FSDataInputStream open(Path path, int bufferSize) throws IOException {
    refuseWhatIsShut(path);
    if (path.getName().startsWith("gone")) {
      throw new FileNotFoundException(path + " (No such file or directory)");
    }
    return path.getName().startsWith("failing")
        ? new FSDataInputStream(new Failing())
        : super.open(path, bufferSize);
  }

  /** A disk that gives a few bytes and then none. */
  @SuppressWarnings("InputStreamSlowMultibyteRead") // a few bytes, in a test
  private static final class Failing extends FSInputStream {
    private long position;

    @Override
    public int read() throws IOException {
      if (position++ > 100) {
        throw new IOException("Input/output error");
      }
      return ' ';
    }

    @Override
    public void seek(long to) {
      position = to;
    }

    @Override
    public long getPos() {
      return position;
    }

    @Override
    public boolean seekToNewSource(long to) {
      return false;
    }
  }

  /** The local disk, while somebody appends to a file as it is read, so many times. */
  static final class Written extends RawLocalFileSystem {
    private static int left;

    /** How many more times somebody will. */
    static void times(int more) {
      left = more;
    }

    @Override
    public FSDataInputStream open(Path path, int bufferSize) throws IOException {
      FSDataInputStream stream = super.open(path, bufferSize);
      if (left-- <= 0) {
        return stream;
      }
      try (InputStream content = stream) {
        byte[] half = content.readNBytes(10);
        Files.writeString(pathToFile(path).toPath(), " more", StandardOpenOption.APPEND);
        return new FSDataInputStream(new Half(half));
      }
    }
  }

  /** What was there when it was opened. */
  @SuppressWarnings("InputStreamSlowMultibyteRead") // a few bytes, in a test
  private static final class Half extends FSInputStream {
    private final byte[] content;
    private int position;

    Half(byte[] content) {
      this.content = content;
    }

    @Override
    public int read() {
      return position < content.length ? content[position++] : -1;
    }

    @Override
    public void seek(long to) {
      position = (int) to;
    }

    @Override
    public long getPos() {
      return position;
    }

    @Override
    public boolean seekToNewSource(long to) {
      return false;
    }
  }
}
