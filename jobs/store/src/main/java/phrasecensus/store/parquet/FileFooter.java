package phrasecensus.store.parquet;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.apache.parquet.format.ColumnChunk;
import org.apache.parquet.format.Encoding;
import org.apache.parquet.format.FileMetaData;
import org.apache.parquet.format.RowGroup;
import org.apache.parquet.format.Util;

/**
 * What stands last in a Parquet file. The library lists the encodings of a column in the order of a
 * hash set, which is another one in each process; sorted, the same rows are the same bytes.
 *
 * @see <a href="https://parquet.apache.org/docs/file-format/">The Parquet file format</a>
 */
final class FileFooter {
  private static final byte[] MAGIC = {'P', 'A', 'R', '1'};

  /** Bytes of the length and of the magic number that end a file. */
  static final int END = Integer.BYTES + MAGIC.length;

  private FileFooter() {}

  /** Whether these bytes end a file whose metadata are as long as told. */
  static boolean isEnd(byte[] bytes, int length) {
    return bytes.length == END
        && ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN).getInt() == length
        && ByteBuffer.wrap(bytes, Integer.BYTES, MAGIC.length).equals(ByteBuffer.wrap(MAGIC));
  }

  /**
   * The metadata with the encodings of each column in the order of their numbers, and the end that
   * follows them.
   *
   * @param metadata as Thrift's compact protocol has them
   * @throws IOException if they are none
   */
  static byte[] sorted(byte[] metadata) throws IOException {
    FileMetaData file = Util.readFileMetaData(new ByteArrayInputStream(metadata));
    for (RowGroup group : file.getRow_groups()) {
      for (ColumnChunk column : group.getColumns()) {
        List<Encoding> encodings = new ArrayList<>(column.getMeta_data().getEncodings());
        encodings.sort(Comparator.comparingInt(Encoding::getValue));
        column.getMeta_data().setEncodings(encodings);
      }
    }
    ByteArrayOutputStream bytes = new ByteArrayOutputStream(metadata.length + END);
    Util.writeFileMetaData(file, bytes);
    int length = bytes.size();
    bytes.write(
        ByteBuffer.allocate(Integer.BYTES).order(ByteOrder.LITTLE_ENDIAN).putInt(length).array());
    bytes.write(MAGIC);
    return bytes.toByteArray();
  }
}
