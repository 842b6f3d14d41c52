package phrasecensus.spark.parquet;

import java.math.BigInteger;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import phrasecensus.tables.Sha256;
import phrasecensus.tables.TableRow;

/**
 * A digest of a set of rows that does not depend on their order, nor on how they are spread over
 * files: the sum of the rows' SHA-256 digests modulo 2^256. Sums of parts add up to the sum of the
 * whole, so every task digests what it wrote.
 */
public final class RowDigest {
  private static final BigInteger MODULUS = BigInteger.ONE.shiftLeft(256);

  private final MessageDigest sha256 = Sha256.digest();
  private final long[] sum = new long[4];
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
    sha256.update(bytes, 0, length);
    ByteBuffer digest = ByteBuffer.wrap(sha256.digest());
    int carry = 0;
    for (int limb = 3; limb >= 0; limb--) {
      long term = digest.getLong(limb * 8);
      long total = sum[limb] + term;
      int overflow = Long.compareUnsigned(total, term) < 0 ? 1 : 0;
      long carried = total + carry;
      if (carry == 1 && carried == 0) {
        overflow = 1;
      }
      sum[limb] = carried;
      carry = overflow;
    }
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

  /** The sum so far as 64 hexadecimal digits. */
  public String hex() {
    ByteBuffer limbs = ByteBuffer.allocate(32);
    for (long limb : sum) {
      limbs.putLong(limb);
    }
    return HexFormat.of().formatHex(limbs.array());
  }

  /** The digest of two disjoint sets of rows from the digests of each. */
  public static String sum(String first, String second) {
    BigInteger total = new BigInteger(first, 16).add(new BigInteger(second, 16)).mod(MODULUS);
    return String.format(java.util.Locale.ROOT, "%064x", total);
  }

  /** The digest of no rows. */
  public static String none() {
    return "0".repeat(64);
  }
}
