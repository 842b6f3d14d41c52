package phrasecensus.spark.parquet;

import java.io.IOException;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import org.apache.parquet.bytes.BytesInput;
import org.apache.parquet.bytes.BytesUtils;
import org.apache.parquet.bytes.HeapByteBufferAllocator;
import org.apache.parquet.column.ColumnDescriptor;
import org.apache.parquet.column.Encoding;
import org.apache.parquet.column.page.DictionaryPage;
import org.apache.parquet.column.statistics.Statistics;
import org.apache.parquet.column.values.rle.RunLengthBitPackingHybridEncoder;
import org.apache.parquet.compression.CompressionCodecFactory.BytesInputCompressor;
import org.apache.parquet.hadoop.ParquetFileWriter;
import org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName;

/**
 * One column of a row group: collects the numbers of its values among the {@link DistinctValues},
 * then writes pages of Parquet's first version, with a dictionary where that is smaller (Apache
 * Parquet, Encodings and Data Pages). Least and greatest values are looked for among the distinct
 * values of a page.
 */
final class ColumnChunk {
  /** So that looking up the rows of one solo does not decode those of a hundred. */
  private static final int ROWS_A_PAGE = 4000;

  private static final int LARGEST_DICTIONARY = 1024 * 1024;
  private static final int MISSING = -1;
  private static final int EMPTY_LIST = -2;

  private final ColumnDescriptor column;
  private final PrimitiveTypeName type;
  private final DistinctValues distinct;
  private int rows;

  /** A number for each value, and one for a missing value or a list without elements. */
  private int[] entries = new int[256];

  private int count;

  /** Entries that go on with the list of the entry before. */
  private final BitSet inList = new BitSet();

  /** The first entry of each page. */
  private int[] pages = new int[4];

  private int pageCount;

  ColumnChunk(ColumnDescriptor column) {
    this.column = column;
    this.type = column.getPrimitiveType().getPrimitiveTypeName();
    this.distinct = DistinctValues.of(type);
  }

  /** Adds the value of the next row; null where missing. */
  void add(Object value) {
    if (rows++ % ROWS_A_PAGE == 0) {
      if (pageCount == pages.length) {
        pages = Arrays.copyOf(pages, 2 * pageCount);
      }
      pages[pageCount++] = count;
    }
    if (value == null) {
      addEntry(MISSING);
    } else if (column.getMaxRepetitionLevel() == 0) {
      addEntry(distinct.number(value));
    } else {
      addList((List<?>) value);
    }
  }

  private void addList(List<?> elements) {
    if (elements.isEmpty()) {
      addEntry(EMPTY_LIST);
    }
    for (int i = 0; i < elements.size(); i++) {
      if (i > 0) {
        inList.set(count);
      }
      addEntry(distinct.number(elements.get(i)));
    }
  }

  private void addEntry(int entry) {
    if (count == entries.length) {
      entries = Arrays.copyOf(entries, 2 * count);
    }
    entries[count++] = entry;
  }

  /** Writes the column as the next one of the file's block. */
  void write(ParquetFileWriter file, BytesInputCompressor compressor) throws IOException {
    boolean byNumber = isSmallerByNumber();
    file.startColumn(column, count, compressor.getCodecName());
    if (byNumber) {
      LittleEndianBytes values = new LittleEndianBytes();
      for (int number = 0; number < distinct.count(); number++) {
        distinct.addTo(values, number);
      }
      file.writeDictionaryPage(
          new DictionaryPage(
              compressor.compress(values.input()),
              values.length(),
              distinct.count(),
              Encoding.PLAIN));
    }
    int[] pageOfValue = new int[distinct.count()];
    for (int page = 0; page < pageCount; page++) {
      int from = pages[page];
      int to = page + 1 < pageCount ? pages[page + 1] : count;
      BytesInput bytes =
          BytesInput.concat(
              levels(from, to, column.getMaxRepetitionLevel(), true),
              levels(from, to, column.getMaxDefinitionLevel(), false),
              byNumber ? numbers(from, to) : plain(from, to));
      file.writeDataPage(
          to - from,
          Math.toIntExact(bytes.size()),
          compressor.compress(bytes),
          statistics(from, to, page + 1, pageOfValue),
          Math.min(ROWS_A_PAGE, rows - page * ROWS_A_PAGE),
          Encoding.RLE,
          Encoding.RLE,
          byNumber ? Encoding.RLE_DICTIONARY : Encoding.PLAIN);
    }
    file.endColumn();
  }

  private boolean isSmallerByNumber() {
    if (type == PrimitiveTypeName.BOOLEAN || distinct.count() == 0) {
      return false;
    }
    long dictionary = 0;
    for (int number = 0; number < distinct.count(); number++) {
      dictionary += distinct.size(number);
    }
    long plain = 0;
    long values = 0;
    for (int i = 0; i < count; i++) {
      if (entries[i] >= 0) {
        plain += distinct.size(entries[i]);
        values++;
      }
    }
    return dictionary <= LARGEST_DICTIONARY
        && dictionary + values * bitsOfNumber() / Byte.SIZE < plain;
  }

  private int bitsOfNumber() {
    return BytesUtils.getWidthFromMaxInt(distinct.count() - 1);
  }

  /** Levels of repetition or definition, with their length before them; nothing for one level. */
  private BytesInput levels(int from, int to, int highest, boolean repetition) throws IOException {
    if (highest == 0) {
      return BytesInput.empty();
    }
    RunLengthBitPackingHybridEncoder encoder = encoder(BytesUtils.getWidthFromMaxInt(highest));
    for (int i = from; i < to; i++) {
      if (repetition) {
        encoder.writeInt(inList.get(i) ? 1 : 0);
      } else {
        encoder.writeInt(
            entries[i] >= 0 ? highest : entries[i] == EMPTY_LIST ? highest - 1 : 0);
      }
    }
    BytesInput levels = encoder.toBytes();
    return BytesInput.concat(BytesInput.fromInt(Math.toIntExact(levels.size())), levels);
  }

  private BytesInput numbers(int from, int to) throws IOException {
    RunLengthBitPackingHybridEncoder encoder = encoder(bitsOfNumber());
    for (int i = from; i < to; i++) {
      if (entries[i] >= 0) {
        encoder.writeInt(entries[i]);
      }
    }
    return BytesInput.concat(
        BytesInput.from(new byte[] {(byte) bitsOfNumber()}), encoder.toBytes());
  }

  private static RunLengthBitPackingHybridEncoder encoder(int bits) {
    return new RunLengthBitPackingHybridEncoder(
        bits, 256, 64 * 1024, HeapByteBufferAllocator.getInstance());
  }

  private BytesInput plain(int from, int to) {
    LittleEndianBytes bytes = new LittleEndianBytes();
    if (type == PrimitiveTypeName.BOOLEAN) {
      addFlags(from, to, bytes);
    } else {
      for (int i = from; i < to; i++) {
        if (entries[i] >= 0) {
          distinct.addTo(bytes, entries[i]);
        }
      }
    }
    return bytes.input();
  }

  /** Yes and no as single bits, the first in the lowest; the number tells which was met first. */
  private void addFlags(int from, int to, LittleEndianBytes bytes) {
    int yes = distinct.number(true);
    int bits = 0;
    int filled = 0;
    for (int i = from; i < to; i++) {
      if (entries[i] >= 0) {
        bits |= (entries[i] == yes ? 1 : 0) << filled++;
        if (filled == Byte.SIZE) {
          bytes.addByte(bits);
          bits = 0;
          filled = 0;
        }
      }
    }
    if (filled > 0) {
      bytes.addByte(bits);
    }
  }

  /** @param pageOfValue the page that last had each value; kept from page to page */
  private Statistics<?> statistics(int from, int to, int page, int[] pageOfValue) {
    Statistics<?> statistics = Statistics.createStats(column.getPrimitiveType());
    int missing = 0;
    for (int i = from; i < to; i++) {
      int number = entries[i];
      if (number < 0) {
        missing++;
      } else if (pageOfValue[number] != page) {
        pageOfValue[number] = page;
        distinct.update(statistics, number);
      }
    }
    statistics.incrementNumNulls(missing);
    return statistics;
  }
}
