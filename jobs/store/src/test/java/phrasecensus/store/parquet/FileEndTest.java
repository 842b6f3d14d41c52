package phrasecensus.store.parquet;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;
import org.apache.hadoop.conf.Configuration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import phrasecensus.tables.TableSchemas;

class FileEndTest {
  private static final Configuration CONFIGURATION = new Configuration();
  private static final int LONGEST = 1 << 18;

  @TempDir private Path temporary;

  private byte[] file(String remark) throws IOException {
    Path file = temporary.resolve("files.parquet");
    TableFile.create(
            new org.apache.hadoop.fs.Path(file.toUri()),
            TableSchemas.named("files"),
            () -> Map.of("remark", remark),
            CONFIGURATION)
        .close();
    return Files.readAllBytes(file);
  }

  /** The file after other bytes, handed over in pieces. */
  private static FileEnd end(int before, byte[] file, int piece) {
    byte[] all = new byte[before + file.length];
    System.arraycopy(file, 0, all, before, file.length);
    FileEnd end = new FileEnd();
    for (int from = 0; from < all.length; from += piece) {
      byte[] part = Arrays.copyOfRange(all, from, Math.min(all.length, from + piece));
      end.add(part, part.length);
    }
    return end;
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 7, 4096, 65_536, LONGEST, LONGEST + 1, 3 * LONGEST})
  void whateverPassesBeforeAndInWhateverPiecesTheEndSaysWhatTheFileSays(int piece)
      throws IOException {
    byte[] file = file("three notes");

    for (int before : new int[] {0, 5, LONGEST - 100, 2 * LONGEST + 3, 5 * LONGEST}) {
      assertThat(end(before, file, piece).remarks(CONFIGURATION))
          .containsEntry("remark", "three notes")
          .containsEntry("phrasecensus.rows", "0");
    }
  }

  @Test
  void aFooterThatIsLongerThanWhatIsKeptIsReadFromTheFile() throws IOException {
    String remark = "x".repeat(2 * LONGEST);
    byte[] file = file(remark);
    FileEnd end = end(0, file, 65_536);

    assertThat(end.remarks(CONFIGURATION)).isNull();
    assertThat(
            TableFile.remarks(
                new org.apache.hadoop.fs.Path(temporary.resolve("files.parquet").toUri()),
                end,
                CONFIGURATION))
        .containsEntry("remark", remark);
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "PAR1", "no table", "aaaaaaaa\uffff\uffffPAR1"})
  void whatIsNoTableSaysNothing(String text) throws IOException {
    byte[] bytes = text.getBytes(StandardCharsets.UTF_8);

    assertThat(end(0, bytes, 3).remarks(CONFIGURATION)).isNull();
  }
}
