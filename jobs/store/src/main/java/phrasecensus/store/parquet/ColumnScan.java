package phrasecensus.store.parquet;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileStatus;
import org.apache.hadoop.fs.Path;
import org.apache.parquet.column.Dictionary;
import org.apache.parquet.conf.HadoopParquetConfiguration;
import org.apache.parquet.filter2.compat.FilterCompat;
import org.apache.parquet.hadoop.ParquetReader;
import org.apache.parquet.hadoop.api.InitContext;
import org.apache.parquet.hadoop.api.ReadSupport;
import org.apache.parquet.hadoop.util.HadoopInputFile;
import org.apache.parquet.io.InputFile;
import org.apache.parquet.io.api.Binary;
import org.apache.parquet.io.api.Converter;
import org.apache.parquet.io.api.GroupConverter;
import org.apache.parquet.io.api.PrimitiveConverter;
import org.apache.parquet.io.api.RecordMaterializer;
import org.apache.parquet.schema.GroupType;
import org.apache.parquet.schema.LogicalTypeAnnotation;
import org.apache.parquet.schema.MessageType;
import org.apache.parquet.schema.PrimitiveType;
import org.apache.parquet.schema.Type;

/**
 * The rows of one file of a table, in the file's order, some of its columns only. What is not asked
 * for is not decoded, and a text that the file holds once, in its dictionary, is made once.
 */
public final class ColumnScan implements AutoCloseable {
  private final ParquetReader<Object[]> reader;

  private ColumnScan(ParquetReader<Object[]> reader) {
    this.reader = reader;
  }

  /**
   * Opens a file.
   *
   * @param columns names of the columns, in the order in which values are wanted
   * @throws IOException if the file cannot be opened, or lacks one of the columns
   */
  public static ColumnScan open(Path file, List<String> columns, Configuration configuration)
      throws IOException {
    return open(
        HadoopInputFile.fromPath(file, configuration), columns, FilterCompat.NOOP, configuration);
  }

  /** The same, of a file that was listed: on an object store its size need not be asked for. */
  static ColumnScan open(FileStatus file, List<String> columns, Configuration configuration)
      throws IOException {
    return open(file, columns, FilterCompat.NOOP, configuration);
  }

  /**
   * The same, passing over pages without a row that the filter lets through. Rows beside those may
   * come too: whoever filters checks them.
   */
  static ColumnScan open(
      FileStatus file,
      List<String> columns,
      FilterCompat.Filter filter,
      Configuration configuration)
      throws IOException {
    return open(HadoopInputFile.fromStatus(file, configuration), columns, filter, configuration);
  }

  private static ColumnScan open(
      InputFile file, List<String> columns, FilterCompat.Filter filter, Configuration configuration)
      throws IOException {
    return new ColumnScan(
        new Builder(file, columns, configuration)
            .withFilter(filter)
            // It would compare every row's text with every one wanted; passing over whole pages
            // and row groups is what the filter is for.
            .useRecordFilter(false)
            .build());
  }

  /**
   * The next row: one value a column, null where missing; null after the last row. Texts are {@code
   * String}, lists {@code List}, numbers and flags boxed, days {@code LocalDate}.
   */
  public Object[] next() throws IOException {
    return reader.read();
  }

  @Override
  public void close() throws IOException {
    reader.close();
  }

  /** With settings that are loaded: the library's own builders load Hadoop's for each file. */
  private static final class Builder extends ParquetReader.Builder<Object[]> {
    private final List<String> columns;

    Builder(InputFile file, List<String> columns, Configuration configuration) {
      super(file, new HadoopParquetConfiguration(configuration));
      // A page whose bytes are not those that were written is damage, not another value.
      usePageChecksumVerification(true);
      this.columns = columns;
    }

    @Override
    protected ReadSupport<Object[]> getReadSupport() {
      return new Columns(columns);
    }
  }

  private static final class Columns extends ReadSupport<Object[]> {
    private final List<String> columns;

    Columns(List<String> columns) {
      this.columns = columns;
    }

    @Override
    public ReadContext init(InitContext context) {
      MessageType file = context.getFileSchema();
      List<Type> wanted = new ArrayList<>();
      columns.forEach(column -> wanted.add(file.getType(column)));
      return new ReadContext(new MessageType(file.getName(), wanted));
    }

    @Override
    @SuppressWarnings("deprecation") // still the abstract one in Parquet 1.17
    public RecordMaterializer<Object[]> prepareForRead(
        Configuration configuration,
        Map<String, String> metadata,
        MessageType file,
        ReadContext context) {
      return new Materializer(context.getRequestedSchema());
    }
  }

  private static final class Materializer extends RecordMaterializer<Object[]> {
    private final Converter[] converters;
    private final GroupConverter root =
        new GroupConverter() {
          @Override
          public Converter getConverter(int field) {
            return converters[field];
          }

          @Override
          public void start() {
            values = new Object[converters.length];
          }

          @Override
          public void end() {
            // The row is taken by currentRecord.
          }
        };
    private Object[] values;

    Materializer(MessageType schema) {
      converters = new Converter[schema.getFieldCount()];
      for (int i = 0; i < converters.length; i++) {
        int place = i;
        Type type = schema.getType(i);
        converters[i] =
            type.isPrimitive()
                ? new Value(type.asPrimitiveType(), value -> values[place] = value)
                : new Elements(type.asGroupType(), list -> values[place] = list);
      }
    }

    @Override
    public Object[] getCurrentRecord() {
      return values;
    }

    @Override
    public GroupConverter getRootConverter() {
      return root;
    }
  }

  private interface Sink {
    void accept(Object value);
  }

  private static final class Value extends PrimitiveConverter {
    private final boolean text;
    private final boolean day;
    private final Sink sink;
    private String[] texts;

    Value(PrimitiveType type, Sink sink) {
      this.text = type.getPrimitiveTypeName() == PrimitiveType.PrimitiveTypeName.BINARY;
      this.day = LogicalTypeAnnotation.dateType().equals(type.getLogicalTypeAnnotation());
      this.sink = sink;
    }

    @Override
    public boolean hasDictionarySupport() {
      return text;
    }

    @Override
    public void setDictionary(Dictionary dictionary) {
      texts = new String[dictionary.getMaxId() + 1];
      for (int i = 0; i < texts.length; i++) {
        texts[i] = text(dictionary.decodeToBinary(i));
      }
    }

    @Override
    public void addValueFromDictionary(int id) {
      sink.accept(texts[id]);
    }

    @Override
    public void addBinary(Binary value) {
      sink.accept(text(value));
    }

    private static String text(Binary value) {
      return new String(value.getBytesUnsafe(), StandardCharsets.UTF_8);
    }

    @Override
    public void addBoolean(boolean value) {
      sink.accept(value);
    }

    @Override
    public void addDouble(double value) {
      sink.accept(value);
    }

    @Override
    public void addInt(int value) {
      if (day) {
        sink.accept(LocalDate.ofEpochDay(value));
      } else {
        sink.accept(value);
      }
    }

    @Override
    public void addLong(long value) {
      sink.accept(value);
    }
  }

  /** A list as Parquet nests it: a group that repeats a group of one element. */
  private static final class Elements extends GroupConverter {
    private final Sink sink;
    private final GroupConverter repeated;
    private List<Object> list;

    Elements(GroupType type, Sink sink) {
      this.sink = sink;
      Converter element =
          new Value(
              type.getType(0).asGroupType().getType(0).asPrimitiveType(), value -> list.add(value));
      this.repeated =
          new GroupConverter() {
            @Override
            public Converter getConverter(int field) {
              return element;
            }

            @Override
            public void start() {
              // Each element tells itself.
            }

            @Override
            public void end() {
              // Each element tells itself.
            }
          };
    }

    @Override
    public Converter getConverter(int field) {
      return repeated;
    }

    @Override
    public void start() {
      list = new ArrayList<>();
    }

    @Override
    public void end() {
      sink.accept(list);
    }
  }
}
