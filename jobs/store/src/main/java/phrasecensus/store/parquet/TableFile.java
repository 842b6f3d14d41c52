package phrasecensus.store.parquet;

import java.io.IOException;
import java.io.Serializable;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Supplier;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.Path;
import org.apache.parquet.HadoopReadOptions;
import org.apache.parquet.column.ParquetProperties;
import org.apache.parquet.hadoop.ParquetFileReader;
import org.apache.parquet.hadoop.ParquetFileWriter;
import org.apache.parquet.hadoop.ParquetWriter;
import org.apache.parquet.hadoop.api.WriteSupport;
import org.apache.parquet.hadoop.metadata.CompressionCodecName;
import org.apache.parquet.hadoop.util.HadoopInputFile;
import org.apache.parquet.io.api.Binary;
import org.apache.parquet.io.api.RecordConsumer;
import org.apache.parquet.schema.ConversionPatterns;
import org.apache.parquet.schema.LogicalTypeAnnotation;
import org.apache.parquet.schema.MessageType;
import org.apache.parquet.schema.PrimitiveType;
import org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName;
import org.apache.parquet.schema.Type;
import org.apache.parquet.schema.Types;
import phrasecensus.tables.Column;
import phrasecensus.tables.ColumnType;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;

/**
 * One Parquet file of a table, open for writing.
 *
 * <p>Every task of the reading job writes a file a table beside the others, so that one pass over
 * the scores makes all tables without a shuffle; Spark's own writer makes one table a job. The
 * schema is also stored as Spark stores it, so that descriptions and units reach whoever reads the
 * table through Spark.
 */
public final class TableFile implements AutoCloseable {
  /** Under this key Spark looks for its own schema in a Parquet file. */
  private static final String SPARK_SCHEMA_KEY = "org.apache.spark.sql.parquet.row.metadata";

  /** The version of the schema, among the texts that stand beside it. */
  static final String VERSION_KEY = "phrasecensus.version";

  /** Under these keys stand the number of rows and their digest. */
  private static final String ROWS_KEY = "phrasecensus.rows";

  private static final String DIGEST_KEY = "phrasecensus.row_digest";

  /** Columns of texts by which pages are passed over; the bounds of others would help nobody. */
  private static final Set<String> LOOKED_UP = Set.of("solo_id", "role", "student");

  private final StoredFile file;
  private final ParquetWriter<TableRow> writer;
  private final RowDigest digest;

  private TableFile(StoredFile file, ParquetWriter<TableRow> writer, RowDigest digest) {
    this.file = file;
    this.writer = writer;
    this.digest = digest;
  }

  /**
   * Rows of a file and their digest.
   *
   * @param digest as {@link RowDigest} makes it
   */
  public record Written(long rows, String digest) implements Serializable {
    /** No rows. */
    public static final Written NOTHING = new Written(0, RowDigest.none());

    /** What this and other files hold together. */
    public Written plus(Written other) {
      return new Written(rows + other.rows, RowDigest.sum(digest, other.digest));
    }
  }

  /**
   * A file that is written and closed.
   *
   * @param written what it holds
   * @param sha256 of its bytes
   * @param bytes its size
   */
  public record Stored(Written written, String sha256, long bytes) implements Serializable {}

  /** Creates the file; an existing one is replaced. */
  public static TableFile create(Path path, TableSchema schema, Configuration configuration)
      throws IOException {
    return create(path, schema, Map::of, configuration);
  }

  /**
   * Creates the file; an existing one is replaced.
   *
   * @param remarks texts by key that are asked for at the end and written beside the schema
   */
  public static TableFile create(
      Path path,
      TableSchema schema,
      Supplier<Map<String, String>> remarks,
      Configuration configuration)
      throws IOException {
    RowDigest digest = new RowDigest();
    Supplier<Map<String, String>> atEnd =
        () -> {
          Map<String, String> texts = new TreeMap<>(remarks.get());
          texts.put(ROWS_KEY, Long.toString(digest.rows()));
          texts.put(DIGEST_KEY, digest.hex());
          return texts;
        };
    StoredFile file = new StoredFile(path, configuration);
    Builder builder = new Builder(file, schema, atEnd);
    for (Column column : schema.columns()) {
      if (column.type() == ColumnType.STRING && !LOOKED_UP.contains(column.name())) {
        // Least and greatest text of a page: two comparisons for every value.
        builder.withStatisticsEnabled(column.name(), false);
      }
    }
    return new TableFile(
        file,
        builder
            .withConf(configuration)
            .withWriteMode(ParquetFileWriter.Mode.OVERWRITE)
            .withCompressionCodec(CompressionCodecName.SNAPPY)
            .withWriterVersion(ParquetProperties.WriterVersion.PARQUET_1_0)
            // Many columns of a small table: the defaults would take megabytes a column.
            .withRowGroupSize(16L * 1024 * 1024)
            .withPageSize(256 * 1024)
            // So that looking up the rows of one solo does not decode those of a hundred.
            .withPageRowCountLimit(4000)
            // Histograms of levels, which nobody reads and every value would be counted for.
            .withSizeStatisticsEnabled(false)
            .build(),
        digest);
  }

  public void write(TableRow row) throws IOException {
    writer.write(row);
    digest.add(row);
  }

  /**
   * Gives the file up: it will never have been there. Only on a file system whose streams can be
   * aborted ({@code fs.capability.outputstream.abortable}).
   */
  public void abandon() {
    file.abort();
    try {
      writer.close();
    } catch (IOException | RuntimeException e) {
      // There is nowhere left to write the end to; what the writer holds is free.
    }
  }

  /** What was written so far. */
  public Written written() {
    return new Written(digest.rows(), digest.hex());
  }

  /** The texts that stand beside the schema of a file. */
  public static Map<String, String> remarks(Path path, Configuration configuration)
      throws IOException {
    try (ParquetFileReader reader =
        ParquetFileReader.open(
            HadoopInputFile.fromPath(path, configuration),
            HadoopReadOptions.builder(configuration).build())) {
      return reader.getFooter().getFileMetaData().getKeyValueMetaData();
    }
  }

  /** The same, from the end of a file that was read through; the file is opened if it must be. */
  public static Map<String, String> remarks(Path path, FileEnd end, Configuration configuration)
      throws IOException {
    Map<String, String> remarks = end.remarks(configuration);
    return remarks == null ? remarks(path, configuration) : remarks;
  }

  /**
   * What a file says that it holds, from its end.
   *
   * @throws IOException if it is none of this program's files
   */
  public static Written written(Path path, FileEnd end, Configuration configuration)
      throws IOException {
    return written(path, remarks(path, end, configuration));
  }

  /**
   * What a file says that it holds.
   *
   * @throws IOException if it is none of this program's files
   */
  public static Written written(Path path, Configuration configuration) throws IOException {
    return written(path, remarks(path, configuration));
  }

  /** The same, from the texts that stand beside the schema of the file. */
  static Written written(Path path, Map<String, String> remarks) throws IOException {
    if (!remarks.containsKey(ROWS_KEY) || !remarks.containsKey(DIGEST_KEY)) {
      throw new IOException(path + " does not say what it holds");
    }
    return new Written(Long.parseLong(remarks.get(ROWS_KEY)), remarks.get(DIGEST_KEY));
  }

  @Override
  public void close() throws IOException {
    writer.close();
  }

  /** Closes the file and says what is stored in it. */
  public Stored stored() throws IOException {
    close();
    return new Stored(written(), file.sha256(), file.bytes());
  }

  /** The Parquet schema of a table: a column that may not be missing is required. */
  public static MessageType parquetSchema(TableSchema schema) {
    List<Type> fields = new ArrayList<>();
    for (Column column : schema.columns()) {
      fields.add(parquetType(column));
    }
    return new MessageType("spark_schema", fields);
  }

  private static Type parquetType(Column column) {
    Type.Repetition repetition =
        column.nullable() ? Type.Repetition.OPTIONAL : Type.Repetition.REQUIRED;
    return switch (column.type()) {
      case STRING -> text(repetition).named(column.name());
      case INTEGER -> Types.primitive(PrimitiveTypeName.INT32, repetition).named(column.name());
      case LONG -> Types.primitive(PrimitiveTypeName.INT64, repetition).named(column.name());
      case DOUBLE -> Types.primitive(PrimitiveTypeName.DOUBLE, repetition).named(column.name());
      case BOOLEAN -> Types.primitive(PrimitiveTypeName.BOOLEAN, repetition).named(column.name());
      case DATE ->
          Types.primitive(PrimitiveTypeName.INT32, repetition)
              .as(LogicalTypeAnnotation.dateType())
              .named(column.name());
      case STRING_ARRAY ->
          list(column, repetition, text(Type.Repetition.REQUIRED).named("element"));
      case INTEGER_ARRAY ->
          list(
              column,
              repetition,
              Types.primitive(PrimitiveTypeName.INT32, Type.Repetition.REQUIRED).named("element"));
    };
  }

  /** The type of a column that metadata added, from its Parquet type. */
  static ColumnType columnType(Type type) {
    return switch (type.asPrimitiveType().getPrimitiveTypeName()) {
      case INT32 -> ColumnType.DATE;
      case INT64 -> ColumnType.LONG;
      case DOUBLE -> ColumnType.DOUBLE;
      default -> ColumnType.STRING;
    };
  }

  private static Types.PrimitiveBuilder<PrimitiveType> text(Type.Repetition repetition) {
    return Types.primitive(PrimitiveTypeName.BINARY, repetition)
        .as(LogicalTypeAnnotation.stringType());
  }

  private static Type list(Column column, Type.Repetition repetition, Type element) {
    return ConversionPatterns.listOfElements(repetition, column.name(), element);
  }

  private static final class Builder extends ParquetWriter.Builder<TableRow, Builder> {
    private final TableSchema schema;
    private final Supplier<Map<String, String>> atEnd;

    Builder(StoredFile file, TableSchema schema, Supplier<Map<String, String>> atEnd) {
      super(file);
      this.schema = schema;
      this.atEnd = atEnd;
    }

    @Override
    protected Builder self() {
      return this;
    }

    @Override
    @SuppressWarnings("deprecation") // still the abstract one in Parquet 1.17
    protected WriteSupport<TableRow> getWriteSupport(Configuration conf) {
      return new RowWriteSupport(schema, atEnd);
    }
  }

  private static final class RowWriteSupport extends WriteSupport<TableRow> {
    private final TableSchema schema;
    private final List<Column> columns;
    // Neighbouring rows share their texts (the solo, the file): encoded once, not once a row.
    private final String[] lastText;
    private final Binary[] lastBinary;
    private final Supplier<Map<String, String>> atEnd;
    private RecordConsumer consumer;

    RowWriteSupport(TableSchema schema, Supplier<Map<String, String>> atEnd) {
      this.schema = schema;
      this.atEnd = atEnd;
      this.columns = schema.columns();
      this.lastText = new String[columns.size()];
      this.lastBinary = new Binary[columns.size()];
    }

    @Override
    @SuppressWarnings("deprecation") // still the abstract one in Parquet 1.17
    public WriteContext init(Configuration configuration) {
      return new WriteContext(
          parquetSchema(schema),
          Map.of(
              SPARK_SCHEMA_KEY,
              schema.sparkJson(),
              "phrasecensus.table",
              schema.table(),
              VERSION_KEY,
              Integer.toString(schema.version())));
    }

    @Override
    public FinalizedWriteContext finalizeWrite() {
      return new FinalizedWriteContext(atEnd.get());
    }

    @Override
    public void prepareForWrite(RecordConsumer recordConsumer) {
      this.consumer = recordConsumer;
    }

    @Override
    public void write(TableRow row) {
      consumer.startMessage();
      for (int i = 0; i < columns.size(); i++) {
        Object value = row.value(i);
        if (value != null) {
          String name = columns.get(i).name();
          consumer.startField(name, i);
          if (value instanceof String text) {
            consumer.addBinary(binary(text, i));
          } else {
            add(value);
          }
          consumer.endField(name, i);
        }
      }
      consumer.endMessage();
    }

    private Binary binary(String text, int column) {
      if (!text.equals(lastText[column])) {
        lastText[column] = text;
        lastBinary[column] = Binary.fromConstantByteArray(text.getBytes(StandardCharsets.UTF_8));
      }
      return lastBinary[column];
    }

    private void add(Object value) {
      if (value instanceof String text) {
        consumer.addBinary(Binary.fromString(text));
      } else if (value instanceof Integer number) {
        consumer.addInteger(number);
      } else if (value instanceof Long number) {
        consumer.addLong(number);
      } else if (value instanceof Double number) {
        consumer.addDouble(number);
      } else if (value instanceof Boolean flag) {
        consumer.addBoolean(flag);
      } else if (value instanceof LocalDate day) {
        consumer.addInteger(Math.toIntExact(day.toEpochDay()));
      } else {
        addList((List<?>) value);
      }
    }

    private void addList(List<?> elements) {
      consumer.startGroup();
      if (!elements.isEmpty()) {
        consumer.startField("list", 0);
        for (Object element : elements) {
          consumer.startGroup();
          consumer.startField("element", 0);
          add(element);
          consumer.endField("element", 0);
          consumer.endGroup();
        }
        consumer.endField("list", 0);
      }
      consumer.endGroup();
    }
  }
}
