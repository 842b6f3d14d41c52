package phrasecensus.composer;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class MainTest {
  private final ByteArrayOutputStream out = new ByteArrayOutputStream();
  private final ByteArrayOutputStream err = new ByteArrayOutputStream();

  @Test
  void withoutFolderItSaysHowItIsCalled() {
    assertThat(run()).isEqualTo(2);
    assertThat(err.toString(StandardCharsets.UTF_8)).contains("TARGET_FOLDER");
  }

  @Test
  void writesTheCorpusAndTakesOldScoresAway(@TempDir Path folder) throws IOException {
    Path old = Files.createDirectories(folder.resolve("corpus")).resolve("old.musicxml");
    Files.writeString(old, "<score-partwise/>");
    Path note = Files.writeString(folder.resolve("corpus/note.txt"), "kept");

    assertThat(run(folder.toString())).isZero();

    assertThat(old).doesNotExist();
    assertThat(note).exists();
    assertThat(folder.resolve("expected/students.csv")).exists();
    assertThat(out.toString(StandardCharsets.UTF_8)).startsWith("Wrote 78 files into ");
  }

  @Test
  void folderThatIsAFileIsReported(@TempDir Path folder) throws IOException {
    Path file = Files.writeString(folder.resolve("taken"), "");

    assertThat(run(file.toString())).isEqualTo(3);
    assertThat(err.toString(StandardCharsets.UTF_8)).startsWith("Cannot write the sample corpus");
  }

  private int run(String... arguments) {
    return Main.run(
        arguments,
        new PrintStream(out, true, StandardCharsets.UTF_8),
        new PrintStream(err, true, StandardCharsets.UTF_8));
  }
}
