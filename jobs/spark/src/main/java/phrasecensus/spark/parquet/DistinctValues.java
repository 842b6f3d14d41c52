package phrasecensus.spark.parquet;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.parquet.column.statistics.Statistics;
import org.apache.parquet.io.api.Binary;
import org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName;

/** The different values of one column, numbered as they are met. */
abstract class DistinctValues {
  /** For a column of a type. */
  static DistinctValues of(PrimitiveTypeName type) {
    return switch (type) {
      case BINARY -> new Texts();
      case INT32, INT64, DOUBLE, BOOLEAN -> new Numbers(type);
      case FLOAT, INT96, FIXED_LEN_BYTE_ARRAY ->
          throw new IllegalArgumentException("Invalid column type: " + type);
    };
  }

  /** The number of a value, from 0; a new one for a value that was not met before. */
  abstract int number(Object value);

  /** How many there are. */
  abstract int count();

  /** Bytes that a value takes in plain encoding. */
  abstract int size(int number);

  /** Adds a value in plain encoding; not for yes and no, which are single bits. */
  abstract void addTo(LittleEndianBytes bytes, int number);

  /** Takes a value into the least and the greatest. */
  abstract void update(Statistics<?> statistics, int number);

  private static final class Texts extends DistinctValues {
    private final Map<String, Integer> numbers = new HashMap<>();
    private final List<byte[]> texts = new ArrayList<>();
    private String last;
    private int lastNumber;

    /** Neighbouring rows share many texts (the solo, the file), often the very same object. */
    @Override
    int number(Object value) {
      String text = (String) value;
      if (!text.equals(last)) {
        Integer known = numbers.putIfAbsent(text, texts.size());
        lastNumber = known == null ? texts.size() : known;
        last = text;
        if (known == null) {
          texts.add(text.getBytes(StandardCharsets.UTF_8));
        }
      }
      return lastNumber;
    }

    @Override
    int count() {
      return texts.size();
    }

    @Override
    int size(int number) {
      return Integer.BYTES + texts.get(number).length;
    }

    @Override
    void addTo(LittleEndianBytes bytes, int number) {
      bytes.addInt(texts.get(number).length);
      bytes.add(texts.get(number));
    }

    @Override
    void update(Statistics<?> statistics, int number) {
      statistics.updateStats(Binary.fromConstantByteArray(texts.get(number)));
    }
  }

  /** Numbers by their bits, in a table with open addressing. */
  private static final class Numbers extends DistinctValues {
    private static final int FREE = -1;

    private final PrimitiveTypeName type;
    private long[] values = new long[64];
    private int count;
    private int[] places = free(128);

    Numbers(PrimitiveTypeName type) {
      this.type = type;
    }

    private static int[] free(int size) {
      int[] places = new int[size];
      Arrays.fill(places, FREE);
      return places;
    }

    @Override
    int number(Object value) {
      long bits =
          switch (type) {
            case INT32 -> (Integer) value;
            case INT64 -> (Long) value;
            case DOUBLE -> Double.doubleToRawLongBits((Double) value);
            default -> (Boolean) value ? 1 : 0;
          };
      int place = place(bits);
      if (places[place] == FREE) {
        if (count == values.length) {
          grow();
          place = place(bits);
        }
        values[count] = bits;
        places[place] = count++;
      }
      return places[place];
    }

    /** Where a value stands or belongs. */
    private int place(long bits) {
      long mixed = bits * 0x9E3779B97F4A7C15L;
      int place = (int) (mixed >>> 32) & places.length - 1;
      while (places[place] != FREE && values[places[place]] != bits) {
        place = place + 1 & places.length - 1;
      }
      return place;
    }

    private void grow() {
      values = Arrays.copyOf(values, 2 * count);
      places = free(4 * count);
      for (int number = 0; number < count; number++) {
        places[place(values[number])] = number;
      }
    }

    @Override
    int count() {
      return count;
    }

    @Override
    int size(int number) {
      return type == PrimitiveTypeName.INT32 ? Integer.BYTES : Long.BYTES;
    }

    @Override
    void addTo(LittleEndianBytes bytes, int number) {
      if (type == PrimitiveTypeName.INT32) {
        bytes.addInt((int) values[number]);
      } else {
        bytes.addLong(values[number]);
      }
    }

    @Override
    void update(Statistics<?> statistics, int number) {
      switch (type) {
        case INT32 -> statistics.updateStats((int) values[number]);
        case INT64 -> statistics.updateStats(values[number]);
        case DOUBLE -> statistics.updateStats(Double.longBitsToDouble(values[number]));
        default -> statistics.updateStats(values[number] == 1);
      }
    }
  }
}
