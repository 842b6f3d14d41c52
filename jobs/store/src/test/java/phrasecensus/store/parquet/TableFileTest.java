package phrasecensus.store.parquet;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.Path;
import org.apache.parquet.hadoop.ParquetFileReader;
import org.apache.parquet.hadoop.metadata.BlockMetaData;
import org.apache.parquet.hadoop.metadata.ColumnChunkMetaData;
import org.apache.parquet.hadoop.util.HadoopInputFile;
import org.apache.parquet.internal.column.columnindex.ColumnIndex;
import org.apache.parquet.internal.column.columnindex.OffsetIndex;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import phrasecensus.tables.Column;
import phrasecensus.tables.ColumnType;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;

/** What Parquet's own reader finds in files that {@link TableFile} wrote. */
class TableFileTest {
  private static final Configuration CONFIGURATION = new Configuration();
  private static final TableSchema SCHEMA = schema();

  @TempDir java.nio.file.Path folder;

  /** A column of every type, once required and once not. */
  private static TableSchema schema() {
    StringBuilder fields = new StringBuilder();
    for (boolean nullable : new boolean[] {false, true}) {
      for (String type :
          List.of(
              "\"string\"",
              "\"integer\"",
              "\"long\"",
              "\"double\"",
              "\"boolean\"",
              "\"date\"",
              "{\"type\": \"array\", \"elementType\": \"string\", \"containsNull\": false}",
              "{\"type\": \"array\", \"elementType\": \"integer\", \"containsNull\": false}")) {
        fields.append(fields.isEmpty() ? "" : ",");
        fields.append("{\"name\": \"c").append(fields.length()).append("\", \"type\": ");
        fields.append(type).append(", \"nullable\": ").append(nullable);
        fields.append(", \"metadata\": {\"description\": \"d\", \"example\": \"e\"}}");
      }
    }
    return TableSchema.parse(
        "{\"table\": \"everything\", \"version\": 1, \"row\": \"a row\", \"key\": [],"
            + " \"columns\": {\"type\": \"struct\", \"fields\": ["
            + fields
            + "]}}");
  }

  private static List<TableRow> rows(int count, int different, long seed) {
    Random random = new Random(seed);
    List<TableRow> rows = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      Object[] values = new Object[SCHEMA.columns().size()];
      for (int c = 0; c < values.length; c++) {
        Column column = SCHEMA.columns().get(c);
        boolean missing = column.nullable() && random.nextInt(4) == 0;
        values[c] = missing ? null : value(column.type(), random, different);
      }
      rows.add(TableRow.of(SCHEMA, values));
    }
    return rows;
  }

  private static Object value(ColumnType type, Random random, int different) {
    int number = random.nextInt(different) - different / 2;
    return switch (type) {
      case STRING -> "täxt " + number;
      case INTEGER -> number;
      case LONG -> number * 10_000_000_000L;
      case DOUBLE -> number / 7.0;
      case BOOLEAN -> number > 0;
      case DATE -> LocalDate.ofEpochDay(number % 100_000);
      case STRING_ARRAY ->
          Stream.generate(() -> "x" + random.nextInt(different)).limit(random.nextInt(4)).toList();
      case INTEGER_ARRAY ->
          IntStream.range(0, random.nextInt(4))
              .map(i -> random.nextInt(different))
              .boxed()
              .toList();
    };
  }

  private Path written(List<TableRow> rows) throws IOException {
    Path path = new Path(folder.resolve("everything.parquet").toUri());
    try (TableFile file = TableFile.create(path, SCHEMA, CONFIGURATION)) {
      for (TableRow row : rows) {
        file.write(row);
      }
    }
    return path;
  }

  private static List<TableRow> read(Path path) throws IOException {
    List<TableRow> rows = new ArrayList<>();
    List<String> names = SCHEMA.columns().stream().map(Column::name).toList();
    try (ColumnScan scan = ColumnScan.open(path, names, CONFIGURATION)) {
      for (Object[] values; (values = scan.next()) != null; ) {
        rows.add(TableRow.of(SCHEMA, values));
      }
    }
    return rows;
  }

  @Test
  void rowsWithFewDifferentValuesAreReadBack() throws IOException {
    List<TableRow> rows = rows(9_001, 5, 1);

    assertThat(read(written(rows))).isEqualTo(rows);
  }

  @Test
  void rowsThatAreAllDifferentAreReadBack() throws IOException {
    List<TableRow> rows = rows(5_000, 1_000_000_000, 2);

    assertThat(read(written(rows))).isEqualTo(rows);
  }

  @Test
  void rowsOfSeveralRowGroupsAreReadBack() throws IOException {
    List<TableRow> rows = rows(200_000, 1_000_000_000, 3);
    Path path = written(rows);

    try (ParquetFileReader reader = reader(path)) {
      assertThat(reader.getRowGroups()).hasSizeGreaterThan(1);
    }
    assertThat(read(path)).isEqualTo(rows);
  }

  @Test
  void oneRowAndNoneAreReadBack() throws IOException {
    assertThat(read(written(List.of()))).isEmpty();
    List<TableRow> row = rows(1, 5, 4);
    assertThat(read(written(row))).isEqualTo(row);
  }

  @Test
  void everyPageTellsItsFirstRowItsBoundsAndWhatIsMissing() throws IOException {
    List<TableRow> rows = rows(9_000, 1000, 5);
    int place = firstNullable(ColumnType.INTEGER);

    try (ParquetFileReader reader = reader(written(rows))) {
      BlockMetaData group = reader.getRowGroups().get(0);
      ColumnChunkMetaData column = group.getColumns().get(place);
      ColumnIndex index = reader.readColumnIndex(column);
      OffsetIndex pages = reader.readOffsetIndex(column);
      assertThat(pages.getPageCount()).isEqualTo(3);
      for (int page = 0; page < 3; page++) {
        assertThat(pages.getFirstRowIndex(page)).isEqualTo(4000L * page);
        List<TableRow> held = rows.subList(4000 * page, Math.min(rows.size(), 4000 * (page + 1)));
        List<Integer> values =
            held.stream().map(row -> (Integer) row.value(place)).filter(v -> v != null).toList();
        assertThat(number(index.getMinValues().get(page))).isEqualTo(Collections.min(values));
        assertThat(number(index.getMaxValues().get(page))).isEqualTo(Collections.max(values));
        assertThat(index.getNullCounts().get(page)).isEqualTo(held.size() - values.size());
      }
      assertThat(column.getStatistics().getNumNulls())
          .isEqualTo(rows.stream().filter(row -> row.value(place) == null).count());
    }
  }

  private static int number(ByteBuffer plain) {
    return plain.order(ByteOrder.LITTLE_ENDIAN).getInt();
  }

  private static int firstNullable(ColumnType type) {
    return IntStream.range(0, SCHEMA.columns().size())
        .filter(i -> SCHEMA.columns().get(i).nullable() && SCHEMA.columns().get(i).type() == type)
        .findFirst()
        .orElseThrow();
  }

  private static ParquetFileReader reader(Path path) throws IOException {
    return ParquetFileReader.open(HadoopInputFile.fromPath(path, CONFIGURATION));
  }
}
