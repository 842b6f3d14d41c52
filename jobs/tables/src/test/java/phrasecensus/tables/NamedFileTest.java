package phrasecensus.tables;

import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import phrasecensus.tables.verify.ExpectedResults;

/** Limits on what people name beside the scores. */
@Timeout(value = 30, unit = TimeUnit.SECONDS)
class NamedFileTest {
  @TempDir private Path folder;

  @Test
  void studyFileOfTenMegabytesIsRefusedAtOnce() throws IOException {
    Path study = folder.resolve("study.yaml");
    Files.writeString(study, "corpus: c\ndescription: " + "word ".repeat(2 << 20) + "\n");

    assertThatThrownBy(() -> StudyDefinition.read(study))
        .isInstanceOf(InputException.class)
        .hasMessage(
            "Cannot read the study file "
                + study
                + ": it has 10485784 bytes; the limit is 1048576.");
  }

  @Test
  void studyFileThatIsADeviceIsNotOpened() {
    assertThatThrownBy(() -> StudyDefinition.read(Path.of("/dev/zero")))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("it is a pipe, a socket or a device");
    assertThatThrownBy(() -> ExpectedResults.read(Path.of("/dev/zero")))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("it is a pipe, a socket or a device");
  }

  @Test
  void cellOfSixtyMegabytesIsRefusedAtOnce() {
    byte[] table =
        ("file,style\na.xml," + "x".repeat(60 << 20) + "\n").getBytes(StandardCharsets.UTF_8);

    assertThatThrownBy(() -> Metadata.read("solos.csv", table, "", List.of("a.xml")))
        .isInstanceOf(InputException.class)
        .hasMessage(
            "Cannot use the metadata file solos.csv: a cell of row 2 has 62914560 characters; the"
                + " limit is 20000. Look for a quotation mark that is not closed.");
  }

  @Test
  void headerOfAMegabyteIsRefused() {
    byte[] table = ("file," + "x".repeat(1 << 20) + "\na.xml,b\n").getBytes(StandardCharsets.UTF_8);

    assertThatThrownBy(() -> Metadata.read("solos.csv", table, "", List.of("a.xml")))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("row 1");
  }
}
