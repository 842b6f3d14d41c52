package phrasecensus.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.zip.CRC32;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.apache.hadoop.conf.Configuration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import phrasecensus.fixtures.ShelfFileSystem;
import phrasecensus.tables.InputException;
import phrasecensus.tables.InputFile;

class ZippedScoresTest {
  @TempDir private Path folder;
  private final Configuration configuration = StudyFolder.configuration();

  private Path zip(String name, Map<String, byte[]> entries) throws IOException {
    Path file = folder.resolve(name);
    try (ZipOutputStream out = new ZipOutputStream(Files.newOutputStream(file))) {
      for (Map.Entry<String, byte[]> entry : entries.entrySet()) {
        out.putNextEntry(new ZipEntry(entry.getKey()));
        out.write(entry.getValue());
      }
    }
    return file;
  }

  private static byte[] text(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  private List<InputFile> listed() {
    return InputListing.scores("corpus", folder.toString(), List.of(), configuration);
  }

  private ZippedScores open(Path file) throws IOException {
    return ZippedScores.open(new org.apache.hadoop.fs.Path(file.toUri()), configuration);
  }

  @Test
  void anArchiveCountsAsAFolder() throws IOException {
    Files.writeString(folder.resolve("a.musicxml"), "first");
    zip(
        "b.zip",
        Map.of(
            "inner/solo.mxl", text("second"),
            "notes.txt", text("not a score"),
            "__MACOSX/._solo.xml", text("hidden")));

    List<InputFile> files = listed();

    assertThat(files)
        .extracting(InputFile::file)
        .containsExactly("a.musicxml", "b.zip/inner/solo.mxl");
    try (ZippedScores zip = open(folder.resolve("b.zip"))) {
      assertThat(zip.bytes(files.get(1).entry(), 100, 100)).isEqualTo(text("second"));
    }
  }

  @Test
  void anEntryThatIsNotWhatWasPutInIsRefused() throws IOException {
    Path file = folder.resolve("b.zip");
    byte[] content = text("<octave>4</octave>");
    CRC32 crc = new CRC32();
    crc.update(content);
    try (ZipOutputStream out = new ZipOutputStream(Files.newOutputStream(file))) {
      ZipEntry entry = new ZipEntry("solo.xml");
      entry.setMethod(ZipEntry.STORED);
      entry.setSize(content.length);
      entry.setCrc(crc.getValue());
      out.putNextEntry(entry);
      out.write(content);
    }
    byte[] bytes = Files.readAllBytes(file);
    bytes[new String(bytes, StandardCharsets.ISO_8859_1).indexOf(">4<") + 1] = '5';
    Files.write(file, bytes);

    try (ZippedScores zip = open(file)) {
      assertThatThrownBy(() -> zip.bytes("solo.xml", 100, 100))
          .hasMessage("by its checksum it is not what was put into the archive");
    }
  }

  @Test
  void anObjectStoreIsListedLikeADisk() throws IOException {
    Files.createDirectories(folder.resolve("inner"));
    Files.writeString(folder.resolve("inner/a.musicxml"), "first");
    Files.createDirectories(folder.resolve("study/generation-0"));
    Files.writeString(folder.resolve("study/generation-0/x.xml"), "output");
    Path archive = zip("b.zip", Map.of("solo.mxl", text("second")));
    Configuration shelf = ShelfFileSystem.configuration();

    List<InputFile> files =
        InputListing.scores(
            "corpus",
            ShelfFileSystem.address(folder),
            List.of("", ShelfFileSystem.address(folder.resolve("study")), "/elsewhere"),
            shelf);

    assertThat(files)
        .extracting(InputFile::file)
        .containsExactly("b.zip/solo.mxl", "inner/a.musicxml");
    assertThat(InputListing.scores("corpus", ShelfFileSystem.address(archive), List.of(), shelf))
        .extracting(InputFile::file)
        .containsExactly("solo.mxl");
  }

  @Test
  void aStudyOnAnotherFileSystemIsNoHindrance() throws IOException {
    Files.writeString(folder.resolve("a.musicxml"), "first");

    assertThat(
            InputListing.scores(
                "corpus",
                folder.toString(),
                List.of("shelf:/study"),
                ShelfFileSystem.configuration()))
        .hasSize(1);
  }

  @Test
  void namesThatLeadOutAreRefusedAndToldByAHarmlessName() throws IOException {
    Map<String, byte[]> entries = new LinkedHashMap<>();
    for (String name :
        List.of(
            "../up.xml",
            "/etc/root.xml",
            "C:\\x.xml",
            "a/../../b.xml",
            "./c.xml",
            "e\\..\\f.xml")) {
      entries.put(name, text("x"));
    }
    entries.put("..fine.xml", text("x"));
    entries.put("good..xml", text("x"));
    zip("b.zip", entries);

    assertThat(listed())
        .allSatisfy(
            file -> {
              assertThat(file.file()).matches("b\\.zip/[^\\\\:\\p{Cntrl}]+");
              assertThat(file.file().split("/")).doesNotContain("..", ".");
            })
        .filteredOn(file -> file.refusal() != null)
        .hasSize(6)
        .allMatch(
            file -> file.refusal().equals("Its name in the archive leads out of the archive."));
    assertThat(listed())
        .filteredOn(file -> file.refusal() == null)
        .extracting(InputFile::file)
        .containsExactly("b.zip/good..xml");
  }

  @Test
  void aSecondEntryOfTheSameNameIsToldAndNotRead() throws IOException {
    byte[] bytes =
        Files.readAllBytes(zip("b.zip", Map.of("one.xml", text("1"), "two.xml", text("2"))));
    String latin = new String(bytes, StandardCharsets.ISO_8859_1).replace("two.xml", "one.xml");
    Files.write(folder.resolve("b.zip"), latin.getBytes(StandardCharsets.ISO_8859_1));

    List<InputFile> files = listed();

    assertThat(files)
        .extracting(InputFile::file)
        .containsExactly("b.zip/one.xml", "b.zip/one.xml (again)");
    assertThat(files.get(0).refusal()).isNull();
    assertThat(files.get(1).refusal()).contains("more than one entry of this name");
  }

  @Test
  void archivesInsideArchivesAreRefused() throws IOException {
    zip("b.zip", Map.of("more.zip", text("PK"), "x.xml", text("x")));

    assertThat(listed())
        .filteredOn(file -> file.refusal() != null)
        .singleElement()
        .satisfies(
            file -> {
              assertThat(file.file()).isEqualTo("b.zip/more.zip");
              assertThat(file.refusal()).contains("archive inside an archive");
            });
  }

  @Test
  void inflatingStopsAtTheLimitsWhateverTheArchiveStates() throws IOException {
    byte[] zeros = new byte[3 << 20];
    byte[] noise = new byte[3 << 20];
    new Random(1).nextBytes(noise);
    Path file = zip("b.zip", Map.of("zeros.xml", zeros, "noise.xml", noise));

    try (ZippedScores zip = open(file)) {
      assertThat(zip.bytes("noise.xml", 4 << 20, 300)).isEqualTo(noise);
      assertThatThrownBy(() -> zip.bytes("noise.xml", 1 << 20, 300))
          .hasMessageContaining("the limit file-size");
      assertThatThrownBy(() -> zip.bytes("zeros.xml", 4 << 20, 300))
          .hasMessageContaining("the limit decompression-ratio");
    }
  }

  @Test
  void aDamagedArchiveIsOneRejectedFile() throws IOException {
    Files.writeString(folder.resolve("a.xml"), "x");
    byte[] whole = Files.readAllBytes(zip("b.zip", Map.of("x.xml", text("x".repeat(500)))));
    Files.write(folder.resolve("b.zip"), java.util.Arrays.copyOf(whole, whole.length / 2));

    assertThat(listed()).hasSize(2);
    assertThat(listed().get(1).refusal()).startsWith("The archive cannot be opened: ");
  }

  /** No damage to an archive ends in anything but a reason. */
  @Test
  void damageNeverEscapes() throws IOException {
    byte[] whole =
        Files.readAllBytes(
            zip("b.zip", Map.of("x.xml", text("<a/>".repeat(99)), "y/z.mxl", text("yy"))));
    for (int seed = 0; seed < 2000; seed++) {
      Random random = new Random(seed);
      byte[] damaged = whole.clone();
      for (int i = 0; i <= random.nextInt(4); i++) {
        damaged[random.nextInt(damaged.length)] = (byte) random.nextInt();
      }
      Files.write(folder.resolve("b.zip"), damaged);
      try (ZippedScores zip = open(folder.resolve("b.zip"))) {
        for (InputFile file : zip.scores("corpus", "", "x")) {
          zip.bytes(file.entry(), 1 << 20, 300);
        }
      } catch (IOException e) {
        assertThat(e.getMessage()).as("seed " + seed).isNotBlank();
      }
    }
  }

  @Test
  void aZipThatIsNoneIsNoCorpus() throws IOException {
    Path file = Files.writeString(folder.resolve("b.zip"), "hello");

    assertThatThrownBy(
            () -> InputListing.scores("corpus", file.toString(), List.of(), configuration))
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith("Cannot list the corpus folder");
  }
}
