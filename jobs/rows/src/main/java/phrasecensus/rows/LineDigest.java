package phrasecensus.rows;

import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import phrasecensus.music.score.Note;
import phrasecensus.music.time.Fraction;
import phrasecensus.tables.Sha256;

/**
 * Tells lines apart by their music: two files have the same digest when their lines have the same
 * onsets, lengths and sounding pitches, whatever else stands in them.
 */
final class LineDigest {
  /** Fewer notes are alike by chance, as scales are. */
  static final int LEAST_NOTES = 8;

  private static final int BYTES_A_NOTE = 5 * Long.BYTES;
  private static final int DIGEST_BYTES = 16;

  private LineDigest() {}

  /** The digest, hexadecimal; null for fewer than {@value #LEAST_NOTES} notes. */
  static String of(List<Note> notes) {
    if (notes.size() < LEAST_NOTES) {
      return null;
    }
    ByteBuffer bytes = ByteBuffer.allocate(notes.size() * BYTES_A_NOTE);
    for (Note note : notes) {
      put(bytes, note.onset());
      put(bytes, note.length());
      bytes.putLong(100L * note.concert().midi() + note.concert().cents());
    }
    byte[] digest = Sha256.digest().digest(bytes.array());
    return HexFormat.of().formatHex(Arrays.copyOf(digest, DIGEST_BYTES));
  }

  private static void put(ByteBuffer bytes, Fraction time) {
    bytes.putLong(time.numerator()).putLong(time.denominator());
  }
}
