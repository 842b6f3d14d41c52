package phrasecensus.spark;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.apache.hadoop.conf.Configuration;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import phrasecensus.tables.DataSource;
import phrasecensus.tables.InputException;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.StatisticsCatalogue;

class StudyFolderTest {
  @TempDir private Path temporary;
  private final Configuration configuration = StudyFolder.configuration();
  private Path folder;

  @BeforeEach
  void nameTheFolder() {
    folder = temporary.resolve("study");
  }

  private static Manifest manifest(String title) {
    return new Manifest(
        Program.nameAndVersion(),
        new Manifest.Study("x", title, "", DataSource.NOT_STATED),
        Map.of(),
        List.of(),
        new Manifest.Report(true, false),
        List.of(),
        List.of(),
        StatisticsCatalogue.builtIn().version(),
        Map.of());
  }

  private StudyFolder writing() {
    return StudyFolder.forWriting(folder.toString(), configuration);
  }

  private void commit(String title) throws IOException {
    try (StudyFolder study = writing()) {
      prepare(title);
      study.commit(manifest(title));
    }
  }

  private void prepare(String title) throws IOException {
    Path table = folder.resolve(".next/tables/notes");
    Files.createDirectories(table);
    Files.writeString(table.resolve("a.parquet"), title);
  }

  private String current() throws IOException {
    return Files.readString(folder.resolve("tables/notes/a.parquet"));
  }

  @Test
  void aCommitReplacesTheTablesAndLeavesNothingBehind() throws IOException {
    commit("first");
    commit("second");

    assertThat(current()).isEqualTo("second");
    try (var files = Files.list(folder)) {
      assertThat(files.map(path -> path.getFileName().toString()))
          .containsExactlyInAnyOrder("tables", "manifest.json");
    }
  }

  @Test
  void aFolderOfSomebodyElseIsLeftAlone() throws IOException {
    Files.createDirectories(folder);
    Files.writeString(folder.resolve("diary.txt"), "dear");

    assertThatThrownBy(this::writing)
        .isInstanceOf(InputException.class)
        .hasMessage(
            "Cannot write the study into "
                + folder
                + ": the folder is not empty and holds no study of this program. Nothing was"
                + " touched; name a new or empty folder with --into.");
    assertThat(folder.resolve("diary.txt")).hasContent("dear");
  }

  @Test
  void someoneElsesManifestDoesNotMakeAFolderOurs() throws IOException {
    Files.createDirectories(folder);
    Files.writeString(folder.resolve("manifest.json"), "{\"short_name\":\"app\"}");

    assertThatThrownBy(this::writing).hasMessageContaining("holds no study of this program");
  }

  @Test
  void aFileIsNoFolder() throws IOException {
    Files.writeString(folder, "x");

    assertThatThrownBy(this::writing)
        .hasMessage("Cannot write the study into " + folder + ": it is a file, not a folder.");
  }

  @Test
  void aRunThatDiesBeforeTheMarkLeavesTheOldStudy() throws IOException {
    commit("first");
    prepare("second");

    try (StudyFolder study = StudyFolder.finished(folder.toString(), configuration)) {
      assertThat(study.manifest().study().title()).isEqualTo("first");
    }
    assertThat(current()).isEqualTo("first");
  }

  @ParameterizedTest
  @ValueSource(ints = {0, 1, 2, 3})
  void aRunThatDiesAfterTheMarkIsFinishedByTheNext(int step) throws IOException {
    commit("first");
    prepare("second");
    Files.writeString(folder.resolve(".next/manifest.json"), manifest("second").json());
    Files.writeString(folder.resolve(".next/COMPLETE"), "");
    if (step >= 1) {
      Files.move(folder.resolve("tables"), folder.resolve(".previous"));
    }
    if (step >= 2) {
      Files.move(folder.resolve(".next/tables"), folder.resolve("tables"));
    }
    if (step >= 3) {
      Files.delete(folder.resolve("manifest.json"));
    }

    try (StudyFolder study = StudyFolder.finished(folder.toString(), configuration)) {
      assertThat(study.manifest().study().title()).isEqualTo("second");
    }
    assertThat(current()).isEqualTo("second");
  }

  @Test
  void twoRunsAtOnceAreRefused() throws IOException {
    Files.createDirectories(folder);
    // The parent of this process is alive for sure and is not this process.
    long other = ProcessHandle.current().parent().orElseThrow().pid();
    Files.writeString(folder.resolve(".lock"), Long.toString(other));

    assertThatThrownBy(this::writing).hasMessageContaining("another run is working on it");
  }

  @Test
  void theLockOfADeadRunIsTakenOver() throws IOException {
    Files.createDirectories(folder);
    Files.writeString(folder.resolve(".lock"), "999999999");

    commit("first");

    assertThat(current()).isEqualTo("first");
  }

  @Test
  void aFolderWithoutStudyCannotBeOpened() {
    assertThatThrownBy(() -> StudyFolder.finished(folder.toString(), configuration))
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith("Cannot find a study in " + folder + ". Make one first:");
  }
}
