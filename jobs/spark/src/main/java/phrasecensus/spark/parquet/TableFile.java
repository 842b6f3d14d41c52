package phrasecensus.spark.parquet;

import java.io.IOException;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Supplier;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.Path;
import org.apache.parquet.HadoopReadOptions;
import org.apache.parquet.column.ParquetProperties;
import org.apache.parquet.hadoop.CodecFactory;
import org.apache.parquet.hadoop.ParquetFileReader;
import org.apache.parquet.hadoop.ParquetFileWriter;
import org.apache.parquet.hadoop.ParquetWriter;
import org.apache.parquet.hadoop.metadata.CompressionCodecName;
import org.apache.parquet.hadoop.util.HadoopInputFile;
import org.apache.parquet.schema.ConversionPatterns;
import org.apache.parquet.schema.LogicalTypeAnnotation;
import org.apache.parquet.schema.MessageType;
import org.apache.parquet.schema.PrimitiveType;
import org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName;
import org.apache.parquet.schema.Type;
import org.apache.parquet.schema.Types;
import phrasecensus.tables.Column;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;

/**
 * One Parquet file of a table, open for writing.
 *
 * <p>Every task of the reading job writes a file a table beside the others, so that one pass over
 * the scores makes all tables without a shuffle; Spark's own writer makes one table a job. The
 * schema is also stored as Spark stores it, so that descriptions and units reach whoever reads the
 * table through Spark.
 *
 * <p>Values go straight to their columns. The library's own way, which takes records apart value by
 * value, took longer than reading and analysing the scores.
 */
public final class TableFile implements AutoCloseable {
  /** Under this key Spark looks for its own schema in a Parquet file. */
  private static final String SPARK_SCHEMA_KEY = "org.apache.spark.sql.parquet.row.metadata";

  /** The version of the schema, among the texts that stand beside it. */
  static final String VERSION_KEY = "phrasecensus.version";

  /** Under these keys stand the number of rows and their digest. */
  private static final String ROWS_KEY = "phrasecensus.rows";

  private static final String DIGEST_KEY = "phrasecensus.row_digest";

  private static final long ROW_GROUP_SIZE = 16L * 1024 * 1024;

  /** As many values of all columns make a row group; each takes four bytes until then. */
  private static final int VALUES_A_ROW_GROUP = 2_000_000;

  private static final int PAGE_SIZE = 256 * 1024;

  private final TableSchema schema;
  private final Supplier<Map<String, String>> remarks;
  private final MessageType parquetSchema;
  private final StoredFile stored;
  private final ParquetFileWriter file;
  private final CodecFactory codecs;
  private final RowDigest digest = new RowDigest();
  private final ColumnChunk[] group;
  private int rowsInGroup;

  private TableFile(
      StoredFile stored,
      TableSchema schema,
      Supplier<Map<String, String>> remarks,
      Configuration configuration)
      throws IOException {
    this.stored = stored;
    this.schema = schema;
    this.remarks = remarks;
    this.parquetSchema = parquetSchema(schema);
    this.group = new ColumnChunk[schema.columns().size()];
    this.codecs = new CodecFactory(configuration, PAGE_SIZE);
    this.file =
        new ParquetFileWriter(
            stored,
            parquetSchema,
            ParquetFileWriter.Mode.OVERWRITE,
            ROW_GROUP_SIZE,
            ParquetWriter.MAX_PADDING_SIZE_DEFAULT,
            null,
            // Without histograms of levels, which nobody reads.
            ParquetProperties.builder().withSizeStatisticsEnabled(false).build());
    file.start();
    startGroup();
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
    return new TableFile(new StoredFile(path, configuration), schema, remarks, configuration);
  }

  public void write(TableRow row) throws IOException {
    for (int i = 0; i < group.length; i++) {
      group[i].add(row.value(i));
    }
    digest.add(row);
    rowsInGroup++;
    if ((long) rowsInGroup * group.length >= VALUES_A_ROW_GROUP) {
      writeGroup();
      startGroup();
    }
  }

  private void startGroup() {
    rowsInGroup = 0;
    for (int i = 0; i < group.length; i++) {
      group[i] = new ColumnChunk(parquetSchema.getColumns().get(i));
    }
  }

  private void writeGroup() throws IOException {
    file.startBlock(rowsInGroup);
    for (ColumnChunk column : group) {
      column.write(file, codecs.getCompressor(CompressionCodecName.SNAPPY));
    }
    file.endBlock();
  }

  /**
   * Gives the file up: it will never have been there. Only on a file system whose streams can be
   * aborted ({@code fs.capability.outputstream.abortable}).
   */
  public void abandon() {
    stored.abort();
    try {
      file.close();
    } catch (IOException | RuntimeException e) {
      // There is nowhere left to write the end to; what the writer holds is free.
    } finally {
      codecs.release();
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
    try (file) {
      if (rowsInGroup > 0) {
        writeGroup();
      }
      file.end(texts());
    } finally {
      codecs.release();
    }
  }

  /** What stands beside the schema in the file. */
  private Map<String, String> texts() {
    Map<String, String> texts = new TreeMap<>(remarks.get());
    texts.put(SPARK_SCHEMA_KEY, schema.sparkJson());
    texts.put("phrasecensus.table", schema.table());
    texts.put(VERSION_KEY, Integer.toString(schema.version()));
    texts.put(ROWS_KEY, Long.toString(digest.rows()));
    texts.put(DIGEST_KEY, digest.hex());
    return texts;
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
      case STRING_ARRAY -> list(column, repetition, text(Type.Repetition.REQUIRED).named("element"));
      case INTEGER_ARRAY ->
          list(
              column,
              repetition,
              Types.primitive(PrimitiveTypeName.INT32, Type.Repetition.REQUIRED).named("element"));
    };
  }

  private static Types.PrimitiveBuilder<PrimitiveType> text(Type.Repetition repetition) {
    return Types.primitive(PrimitiveTypeName.BINARY, repetition)
        .as(LogicalTypeAnnotation.stringType());
  }

  private static Type list(Column column, Type.Repetition repetition, Type element) {
    return ConversionPatterns.listOfElements(repetition, column.name(), element);
  }
}
