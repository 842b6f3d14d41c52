package phrasecensus.store.parquet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.apache.hadoop.conf.Configuration;
import org.apache.parquet.format.ColumnChunk;
import org.apache.parquet.format.Encoding;
import org.apache.parquet.format.FileMetaData;
import org.apache.parquet.format.Util;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;

class FileFooterTest {
  private static final TableSchema SCHEMA =
      TableSchema.parse(
          "{\"table\": \"three\", \"version\": 1, \"row\": \"a row\", \"key\": [],"
              + " \"columns\": {\"type\": \"struct\", \"fields\": ["
              + column("text", "string")
              + ","
              + column("whole", "integer")
              + ","
              + column("number", "double")
              + "]}}");

  @TempDir private Path temporary;

  private static String column(String name, String type) {
    return "{\"name\": \""
        + name
        + "\", \"type\": \""
        + type
        + "\", \"nullable\": true, \"metadata\": {\"description\": \"d\", \"example\": \"e\"}}";
  }

  private byte[] file() throws IOException {
    Path file = temporary.resolve("three.parquet");
    try (TableFile table =
        TableFile.create(
            new org.apache.hadoop.fs.Path(file.toUri()), SCHEMA, new Configuration())) {
      for (int i = 0; i < 100; i++) {
        table.write(TableRow.of(SCHEMA, new Object[] {"a" + i % 3, i % 7, null}));
      }
    }
    return Files.readAllBytes(file);
  }

  private static byte[] metadata(byte[] file) {
    int end = file.length - FileFooter.END;
    int length = ByteBuffer.wrap(file).order(ByteOrder.LITTLE_ENDIAN).getInt(end);
    return Arrays.copyOfRange(file, end - length, end);
  }

  private static List<ColumnChunk> columns(FileMetaData metadata) {
    return metadata.getRow_groups().stream().flatMap(each -> each.getColumns().stream()).toList();
  }

  private static FileMetaData read(byte[] metadata) throws IOException {
    return Util.readFileMetaData(new ByteArrayInputStream(metadata));
  }

  @Test
  void everyColumnOfAWrittenFileListsItsEncodingsByNumber() throws IOException {
    List<ColumnChunk> columns = columns(read(metadata(file())));

    assertThat(columns).isNotEmpty();
    for (ColumnChunk column : columns) {
      assertThat(column.getMeta_data().getEncodings())
          .extracting(Encoding::getValue)
          .hasSizeGreaterThan(1)
          .isSorted();
    }
  }

  @Test
  void inWhateverOrderTheLibraryHasThemTheBytesAreTheSame() throws IOException {
    byte[] file = file();
    byte[] metadata = metadata(file);
    Random random = new Random(20);
    for (int round = 0; round < 50; round++) {
      FileMetaData other = read(metadata);
      for (ColumnChunk column : columns(other)) {
        List<Encoding> encodings = new ArrayList<>(column.getMeta_data().getEncodings());
        Collections.shuffle(encodings, random);
        column.getMeta_data().setEncodings(encodings);
      }
      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      Util.writeFileMetaData(other, bytes);

      assertThat(FileFooter.sorted(bytes.toByteArray()))
          .isEqualTo(
              Arrays.copyOfRange(
                  file, file.length - FileFooter.END - metadata.length, file.length));
    }
  }

  @Test
  void onlyTheLengthAndTheMagicNumberEndAFile() throws IOException {
    byte[] file = file();
    byte[] end = Arrays.copyOfRange(file, file.length - FileFooter.END, file.length);
    int length = metadata(file).length;

    assertThat(FileFooter.isEnd(end, length)).isTrue();
    assertThat(FileFooter.isEnd(end, length + 1)).isFalse();
    assertThat(FileFooter.isEnd(new byte[FileFooter.END], 0)).isFalse();
    assertThat(FileFooter.isEnd(new byte[0], 0)).isFalse();
  }

  @Test
  void whatIsNoMetadataIsRefused() {
    assertThatThrownBy(() -> FileFooter.sorted(new byte[] {1, 2, 3}))
        .isInstanceOf(IOException.class);
  }
}
