package phrasecensus.spark.parquet;

import java.util.Arrays;
import org.apache.parquet.bytes.BytesInput;

/** Bytes that grow, with numbers in the order in which Parquet's plain encoding has them. */
final class LittleEndianBytes {
  private byte[] bytes = new byte[1024];
  private int length;

  void addByte(int value) {
    reserve(1);
    bytes[length++] = (byte) value;
  }

  void addInt(int value) {
    reserve(Integer.BYTES);
    for (int shift = 0; shift < Integer.SIZE; shift += Byte.SIZE) {
      bytes[length++] = (byte) (value >> shift);
    }
  }

  void addLong(long value) {
    reserve(Long.BYTES);
    for (int shift = 0; shift < Long.SIZE; shift += Byte.SIZE) {
      bytes[length++] = (byte) (value >> shift);
    }
  }

  void add(byte[] more) {
    reserve(more.length);
    System.arraycopy(more, 0, bytes, length, more.length);
    length += more.length;
  }

  int length() {
    return length;
  }

  /** The bytes so far, not copied. */
  BytesInput input() {
    return BytesInput.from(bytes, 0, length);
  }

  private void reserve(int more) {
    if (length + more > bytes.length) {
      bytes = Arrays.copyOf(bytes, Math.max(2 * bytes.length, length + more));
    }
  }
}
