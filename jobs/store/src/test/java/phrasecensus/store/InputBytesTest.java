package phrasecensus.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.security.AccessControlException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import phrasecensus.fixtures.FaultyFileSystem;
import phrasecensus.tables.InputFile;

/** Files that change, fail or are gone between listing and reading. */
class InputBytesTest {
  private static final long LARGEST_RATIO = 100;
  private static final String CONTENT = "a score that somebody is still writing";

  @TempDir private Path folder;
  private final Configuration configuration = new Configuration();

  private InputFile written(String name) throws IOException {
    Path file = Files.writeString(folder.resolve(name), CONTENT);
    return new InputFile(InputFile.CORPUS, name, file.toUri().toString(), CONTENT.length());
  }

  private String read(InputFile file, long largest) throws IOException {
    try (InputBytes bytes = new InputBytes(largest, LARGEST_RATIO, configuration)) {
      return new String(bytes.of(file), StandardCharsets.UTF_8);
    }
  }

  private void writing(int times) {
    configuration.set("fs.file.impl", FaultyFileSystem.Written.class.getName());
    configuration.setBoolean("fs.file.impl.disable.cache", true);
    FaultyFileSystem.Written.times(times);
  }

  private InputFile faulty(String name) throws IOException {
    FaultyFileSystem.register(configuration);
    Path file = Files.writeString(folder.resolve(name), CONTENT);
    return new InputFile(InputFile.CORPUS, name, FaultyFileSystem.address(file), CONTENT.length());
  }

  @Test
  void whatIsWrittenToWhileItIsReadIsReadAgainAndWhole() throws IOException {
    InputFile file = written("growing.musicxml");
    writing(1);

    assertThat(read(file, 1000)).isEqualTo(CONTENT + " more");
  }

  @Test
  void whatNeverStandsStillIsTold() throws IOException {
    InputFile file = written("growing.musicxml");
    writing(100);

    assertThatThrownBy(() -> read(file, 1000))
        .isInstanceOf(LostFile.class)
        .hasMessage(
            "The file was written to each time it was read. Read it again when it is finished.");
  }

  @Test
  void aFileThatHasGrownBeyondTheLimitSinceItWasListedIsNotReadWhole() throws IOException {
    InputFile file = written("large.musicxml");
    Files.writeString(folder.resolve("large.musicxml"), CONTENT.repeat(100));

    assertThatThrownBy(() -> read(file, 50))
        .hasMessage("it has more than 50 bytes, the limit file-size");
  }

  @Test
  void aFileThatIsGoneIsLost() throws IOException {
    InputFile file = written("gone.musicxml");
    Files.delete(folder.resolve("gone.musicxml"));

    assertThatThrownBy(() -> read(file, 1000))
        .isInstanceOf(LostFile.class)
        .hasMessage("The file could not be opened: it is gone or may not be read.");
  }

  @Test
  void aDiskThatFailsIsLostToo() throws IOException {
    InputFile file = faulty("failing.musicxml");

    assertThatThrownBy(() -> read(file, 1000))
        .isInstanceOf(LostFile.class)
        .hasMessage("The file could not be read: Input/output error.");
  }

  @Test
  void aFileThatMayNotBeReadIsNoLostFile() throws IOException {
    InputFile file = faulty("shut.musicxml");

    assertThatThrownBy(() -> read(file, 1000)).isInstanceOf(AccessControlException.class);
  }
}
