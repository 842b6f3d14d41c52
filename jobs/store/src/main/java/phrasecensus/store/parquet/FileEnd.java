package phrasecensus.store.parquet;

import java.io.ByteArrayInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;
import java.util.Map;
import org.apache.hadoop.conf.Configuration;
import org.apache.parquet.HadoopReadOptions;
import org.apache.parquet.hadoop.ParquetFileReader;
import org.apache.parquet.io.DelegatingSeekableInputStream;
import org.apache.parquet.io.InputFile;
import org.apache.parquet.io.SeekableInputStream;

/**
 * The last bytes of a Parquet file that passes by, where it says what it holds: whoever has read a
 * file to copy it or to check it need not open it again, which on a store is some requests.
 */
public final class FileEnd {
  /** Most footers are a tenth of this. */
  private static final int MOST = 1 << 18;

  /** The length of the footer, and the four letters that end every Parquet file. */
  private static final int AFTER_FOOTER = 8;

  private byte[] last = new byte[0];
  private int size;

  /** Takes the next bytes of the file. */
  public void add(byte[] bytes, int length) {
    int taken = Math.min(length, MOST);
    if (size + taken > 2 * MOST) {
      System.arraycopy(last, size - MOST, last, 0, MOST);
      size = MOST;
    }
    if (size + taken > last.length) {
      last = Arrays.copyOf(last, Math.min(2 * MOST, Math.max(2 * last.length, size + taken)));
    }
    System.arraycopy(bytes, length - taken, last, size, taken);
    size += taken;
  }

  /**
   * The texts that stand beside the schema.
   *
   * @return null where the footer is longer than what was kept, or the file is none of Parquet's
   */
  Map<String, String> remarks(Configuration configuration) throws IOException {
    if (size < AFTER_FOOTER) {
      return null;
    }
    int footer =
        ByteBuffer.wrap(last, size - AFTER_FOOTER, Integer.BYTES)
            .order(ByteOrder.LITTLE_ENDIAN)
            .getInt();
    // Parquet's library wants four more, those that begin a file.
    if (footer < 0 || footer > size - AFTER_FOOTER - Integer.BYTES) {
      return null;
    }
    try (ParquetFileReader reader =
        ParquetFileReader.open(
            new Bytes(Arrays.copyOf(last, size)),
            HadoopReadOptions.builder(configuration).build())) {
      return reader.getFooter().getFileMetaData().getKeyValueMetaData();
    }
  }

  private record Bytes(byte[] content) implements InputFile {
    @Override
    public long getLength() {
      return content.length;
    }

    @Override
    public SeekableInputStream newStream() {
      return new Stream(content);
    }
  }

  private static final class Stream extends DelegatingSeekableInputStream {
    private final long length;
    private final ByteArrayInputStream bytes;

    private Stream(byte[] content) {
      this(content.length, new ByteArrayInputStream(content));
    }

    private Stream(int length, ByteArrayInputStream bytes) {
      super(bytes);
      this.length = length;
      this.bytes = bytes;
    }

    @Override
    public long getPos() {
      return length - bytes.available();
    }

    @Override
    public void seek(long position) throws IOException {
      if (position < 0 || position > length) {
        throw new EOFException("there is no byte " + position);
      }
      bytes.reset();
      bytes.skip(position);
    }
  }
}
