package phrasecensus.store.parquet;

import java.math.BigInteger;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import org.apache.commons.codec.digest.MurmurHash3;
import phrasecensus.tables.TableRow;

/**
 * A digest of a set of rows that does not depend on their order, nor on how they are spread over
 * files: the sum of the rows' hashes (MurmurHash3, x64, 128 bits, by Austin Appleby) modulo 2^128.
 * Sums of parts add up to the sum of the whole, so every task digests what it wrote.
 *
 * <p>It tells whether two runs found the same. It is no seal: whoever wants to can make other rows
 * with the same sum, as with the sum of any hashes. The inputs' checksums are SHA-256.
 */
public final class RowDigest {
  private static final BigInteger MODULUS = BigInteger.ONE.shiftLeft(128);
  private static final int SEED = 0;

  private long high;
  private long low;
  private byte[] bytes = new byte[512];
  private int length;
  private long rows;

  /** Takes one row in. */
  public void add(TableRow row) {
    length = 0;
    int columns = row.schema().columns().size();
    for (int i = 0; i < columns; i++) {
      add(row.value(i));
    }
    long[] hash = MurmurHash3.hash128x64(bytes, 0, length, SEED);
    low += hash[1];
    high += hash[0] + (Long.compareUnsigned(low, hash[1]) < 0 ? 1 : 0);
    rows++;
  }

  private void add(Object value) {
    if (value == null) {
      reserve(1);
      bytes[length++] = 0;
    } else if (value instanceof String text) {
      byte[] encoded = text.getBytes(StandardCharsets.UTF_8);
      add('s', encoded.length);
      reserve(encoded.length);
      System.arraycopy(encoded, 0, bytes, length, encoded.length);
      length += encoded.length;
    } else if (value instanceof Integer number) {
      add('i', number);
    } else if (value instanceof Long number) {
      add('i', number);
    } else if (value instanceof Double number) {
      add('d', Double.doubleToLongBits(number == 0 ? 0.0 : number));
    } else if (value instanceof Boolean flag) {
      add('b', flag ? 1 : 0);
    } else if (value instanceof LocalDate day) {
      add('t', day.toEpochDay());
    } else {
      List<?> elements = (List<?>) value;
      add('l', elements.size());
      elements.forEach(this::add);
    }
  }

  /** Small numbers, which are most, take two bytes: the digest's cost is its bytes. */
  private void add(char kind, long number) {
    reserve(11);
    bytes[length++] = (byte) kind;
    long rest = (number << 1) ^ (number >> 63);
    while ((rest & ~0x7FL) != 0) {
      bytes[length++] = (byte) (rest & 0x7F | 0x80);
      rest >>>= 7;
    }
    bytes[length++] = (byte) rest;
  }

  private void reserve(int more) {
    if (length + more > bytes.length) {
      bytes = Arrays.copyOf(bytes, Math.max(2 * bytes.length, length + more));
    }
  }

  public long rows() {
    return rows;
  }

  /** The sum so far as 32 hexadecimal digits. */
  public String hex() {
    return HexFormat.of()
        .formatHex(ByteBuffer.allocate(2 * Long.BYTES).putLong(high).putLong(low).array());
  }

  /** The digest of two disjoint sets of rows from the digests of each. */
  public static String sum(String first, String second) {
    BigInteger total = new BigInteger(first, 16).add(new BigInteger(second, 16)).mod(MODULUS);
    return String.format(java.util.Locale.ROOT, "%032x", total);
  }

  /** The digest of no rows. */
  public static String none() {
    return "0".repeat(32);
  }
}
