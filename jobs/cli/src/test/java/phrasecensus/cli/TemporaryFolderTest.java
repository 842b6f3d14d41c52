package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TemporaryFolderTest {
  private static final String PROPERTY = "java.io.tmpdir";

  private final String usual = System.getProperty(PROPERTY);
  private final String home = System.getProperty("user.home");
  @TempDir private Path folder;

  @AfterEach
  void restore() {
    System.setProperty(PROPERTY, usual);
    System.setProperty("user.home", home);
  }

  @Test
  void usualFolderIsLeftAsItIs() {
    assertThat(TemporaryFolder.ensure("study", "corpus")).isNull();
    assertThat(System.getProperty(PROPERTY)).isEqualTo(usual);
  }

  @Test
  void folderBesideTheStudyTakesThePlaceOfOneThatIsNoUse() {
    System.setProperty(PROPERTY, folder.resolve("gone").toString());

    Path made =
        TemporaryFolder.ensure("study", "corpus", "--into", folder.resolve("study").toString());

    assertThat(made).isDirectory().hasParent(folder);
    assertThat(System.getProperty(PROPERTY)).isEqualTo(made.toString());
  }

  @Test
  void whatIsWrongIsSaid() throws IOException {
    assertThat(TemporaryFolder.fault(folder.resolve("gone"), 1)).isEqualTo("is not there");
    assertThat(TemporaryFolder.fault(folder, Long.MAX_VALUE)).isEqualTo("is full");
    assertThat(TemporaryFolder.fault(folder, 1)).isNull();
    assertThat(TemporaryFolder.fault(Files.writeString(folder.resolve("file"), ""), 1))
        .isEqualTo("is not there");
    try (var left = Files.list(folder)) {
      assertThat(left).hasSize(1);
    }
  }
}
