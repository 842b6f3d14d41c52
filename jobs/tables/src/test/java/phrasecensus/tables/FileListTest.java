package phrasecensus.tables;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FileListTest {
  /** SHA-256 of "abc": FIPS 180-4, its first worked example. */
  private static final String ABC =
      "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

  private static final FileList LIST =
      FileList.of(FileList.STUDY, Map.of("tables/notes/a.parquet", ABC, "manifest.json", ABC));

  @Test
  void aListIsReadAsItWasWritten() {
    assertThat(FileList.parse(LIST.bytes())).isEqualTo(LIST);
    assertThat(LIST.isWhole(FileList.STUDY)).isTrue();
    assertThat(LIST.isWhole(FileList.REPORT)).isFalse();
  }

  @Test
  void aReportSaysOfWhichManifestItIs() {
    FileList list = FileList.parse(FileList.of(FileList.REPORT + " " + ABC, Map.of()).bytes());

    assertThat(list.isWhole(FileList.REPORT)).isTrue();
    assertThat(list.belongsTo()).isEqualTo(ABC);
  }

  @Test
  void noFlippedBitLeavesItWhole() {
    byte[] bytes = LIST.bytes();
    for (int bit = 0; bit < 8 * bytes.length; bit++) {
      byte[] flipped = bytes.clone();
      flipped[bit / 8] ^= (byte) (1 << bit % 8);

      FileList list = FileList.parse(flipped);

      assertThat(list.whole()).as("bit %d", bit).isFalse();
      // A line that still is one proves what it says; a digest that is another fits no file.
      assertThat(list.files().size()).isLessThanOrEqualTo(2);
    }
  }

  @Test
  void noListThatIsCutIsWhole() {
    byte[] bytes = LIST.bytes();
    for (int length = 0; length < bytes.length; length++) {
      assertThat(FileList.parse(java.util.Arrays.copyOf(bytes, length)).whole())
          .as("%d bytes", length)
          .isFalse();
    }
  }

  @Test
  void aDamagedListStillProvesTheFilesOfItsOtherLines() {
    byte[] bytes = LIST.bytes();
    String text = new String(bytes, StandardCharsets.UTF_8);
    bytes[text.indexOf("manifest.json") + 3] ^= 4;

    assertThat(FileList.parse(bytes).files()).containsEntry("tables/notes/a.parquet", ABC);
  }

  @Test
  void aListOfChecksumsOfSomebodyElseIsNoneOfOurs() {
    String theirs = ABC + "  tables/data.csv\n" + ABC + "  report/thesis.txt\n";

    assertThat(FileList.parse(theirs.getBytes(StandardCharsets.UTF_8))).isEqualTo(FileList.NONE);
  }

  @Test
  void aNameThatWouldBreakTheLinesIsRefused() {
    assertThatThrownBy(() -> FileList.of(FileList.STUDY, Map.of("a\nb", ABC)))
        .isInstanceOf(IllegalArgumentException.class);
  }

  /** GNU coreutils, sha256sum: 'lines beginning with # are ignored', checked by running it. */
  @Test
  void theUsualProgramChecksIt(@TempDir Path folder) throws Exception {
    Path program = Path.of("/usr/bin/sha256sum");
    assumeTrue(Files.isExecutable(program), "skipped: there is no /usr/bin/sha256sum");
    Files.createDirectories(folder.resolve("tables/notes"));
    Files.writeString(folder.resolve("manifest.json"), "abc");
    Files.writeString(folder.resolve("tables/notes/a.parquet"), "abc");
    Files.write(folder.resolve(FileList.FILE_NAME), LIST.bytes());

    Process check =
        new ProcessBuilder(program.toString(), "--strict", "-c", FileList.FILE_NAME)
            .directory(folder.toFile())
            .redirectErrorStream(true)
            .start();

    assertThat(new String(check.getInputStream().readAllBytes(), StandardCharsets.UTF_8))
        .isEqualTo("manifest.json: OK\ntables/notes/a.parquet: OK\n");
    assertThat(check.waitFor()).isZero();
  }
}
