package phrasecensus.store.parquet;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.apache.hadoop.conf.Configuration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import phrasecensus.tables.Column;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSchemas;

/** The checksums that Parquet's format has for every page (parquet.thrift, PageHeader.crc). */
class PageChecksumTest {
  private static final TableSchema SCHEMA = TableSchemas.named("solo_statistics");

  @TempDir private Path folder;
  private final Configuration configuration = new Configuration();

  private List<Object> read(Path file) throws IOException {
    List<Object> values = new ArrayList<>();
    try (ColumnScan scan =
        ColumnScan.open(
            new org.apache.hadoop.fs.Path(file.toUri()),
            SCHEMA.columns().stream().map(Column::name).toList(),
            configuration)) {
      for (Object[] row = scan.next(); row != null; row = scan.next()) {
        values.addAll(Arrays.asList(row));
      }
    }
    return values;
  }

  private static TableRow row(int place, Random random) {
    Object[] values = new Object[SCHEMA.columns().size()];
    for (int i = 0; i < values.length; i++) {
      values[i] =
          switch (SCHEMA.columns().get(i).type()) {
            case DOUBLE -> random.nextDouble();
            case INTEGER -> place;
            case LONG -> (long) place;
            case STRING -> "text";
            case BOOLEAN -> random.nextBoolean();
            default -> null;
          };
    }
    return TableRow.of(SCHEMA, values);
  }

  /** Values that cannot be compressed: a flipped bit would be another number, and nothing else. */
  @Test
  void noFlippedBitInAPageIsReadAsAnotherValue() throws IOException {
    Random random = new Random(1);
    Path file = folder.resolve("a.parquet");
    org.apache.hadoop.fs.FileSystem.getLocal(configuration).setWriteChecksum(false);
    try (TableFile table =
        TableFile.create(new org.apache.hadoop.fs.Path(file.toUri()), SCHEMA, configuration)) {
      for (int i = 0; i < 2000; i++) {
        table.write(row(i, random));
      }
    }
    Files.deleteIfExists(folder.resolve(".a.parquet.crc"));
    List<Object> whole = read(file);
    byte[] bytes = Files.readAllBytes(file);
    // The end of the file: the footer, its length in four bytes, and PAR1. Indexes of pages lie
    // before.
    int footer =
        java.nio.ByteBuffer.wrap(bytes, bytes.length - 8, 4)
            .order(java.nio.ByteOrder.LITTLE_ENDIAN)
            .getInt();
    int pages = (bytes.length - 8 - footer) * 9 / 10;
    int refused = 0;
    for (int trial = 0; trial < 300; trial++) {
      byte[] flipped = bytes.clone();
      flipped[4 + random.nextInt(pages - 4)] ^= (byte) (1 << random.nextInt(8));
      Files.write(file, flipped);
      try {
        assertThat(read(file)).as("trial %d", trial).isEqualTo(whole);
      } catch (IOException | RuntimeException e) {
        refused++;
      }
    }
    assertThat(refused).isGreaterThan(280);
  }
}
