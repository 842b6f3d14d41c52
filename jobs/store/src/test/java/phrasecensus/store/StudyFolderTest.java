package phrasecensus.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.apache.hadoop.conf.Configuration;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import phrasecensus.tables.FileList;
import phrasecensus.tables.FolderMarker;
import phrasecensus.tables.InputException;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.Sha256;

class StudyFolderTest {
  private static final String TABLE = "tables/" + OneRowStudy.TABLE + "/" + OneRowStudy.PART;

  @TempDir private Path temporary;
  private final Configuration configuration = StudyFolder.configuration();
  private Path folder;

  @BeforeEach
  void nameTheFolder() {
    folder = temporary.resolve("study");
  }

  private StudyFolder writing() {
    return StudyFolder.forWriting(folder.toString(), configuration);
  }

  private StudyFolder finished() {
    return StudyFolder.finished(folder.toString(), configuration);
  }

  /** What the command study does; what is told of the folder. */
  private List<String> study(String title) throws IOException {
    try (StudyFolder study = writing()) {
      study.commit(OneRowStudy.write(study, title, configuration), OneRowStudy.pages(title));
      return study.remarks();
    }
  }

  /** What the command read does. */
  private List<String> read(String title) throws IOException {
    try (StudyFolder study = writing()) {
      study.commit(OneRowStudy.write(study, title, configuration));
      return study.remarks();
    }
  }

  private String title() {
    try (StudyFolder study = finished()) {
      String title = study.source().rows(OneRowStudy.TABLE).get(0).text("solo_id");
      assertThat(study.manifest().study().title()).isEqualTo(title);
      return title;
    }
  }

  private Set<String> names() throws IOException {
    Set<String> names = new TreeSet<>();
    try (Stream<Path> files = Files.list(folder)) {
      files.forEach(file -> names.add(file.getFileName().toString()));
    }
    return names;
  }

  private static final String[] FINISHED = {
    ".phrase-census", "files.sha256", "manifest.json", "report", "tables"
  };

  /** Content by path of every file below a folder. */
  private static Map<String, String> contents(Path folder) throws IOException {
    Map<String, String> contents = new TreeMap<>();
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        contents.put(folder.relativize(file).toString(), Sha256.of(Files.readAllBytes(file)));
      }
    }
    return contents;
  }

  private static void flip(Path file) throws IOException {
    byte[] bytes = Files.readAllBytes(file);
    bytes[bytes.length / 2] ^= 4;
    Files.write(file, bytes);
  }

  /** What was set aside, its only folder. */
  private Path setAside() throws IOException {
    return folder.resolve(
        names().stream().filter(name -> name.startsWith("set-aside-")).findFirst().orElseThrow());
  }

  @Test
  void aCommitReplacesTablesAndReportAndLeavesNothingBehind() throws IOException {
    study("first");
    List<String> told = study("second");

    assertThat(title()).isEqualTo("second");
    assertThat(folder.resolve("report/index.html")).hasContent("second");
    assertThat(names()).containsExactly(FINISHED);
    assertThat(told).isEmpty();
  }

  @Test
  void theListsOfAFinishedStudyFitEveryFile() throws IOException {
    study("first");

    for (String where : List.of("", "report/")) {
      FileList list =
          FileList.parse(Files.readAllBytes(folder.resolve(where + FileList.FILE_NAME)));
      assertThat(list.whole()).isTrue();
      Map<String, String> found = contents(folder.resolve(where.isEmpty() ? "." : where));
      found.keySet().removeIf(file -> file.endsWith(FileList.FILE_NAME));
      found.remove(FolderMarker.FILE_NAME);
      found.keySet().removeIf(file -> where.isEmpty() && file.startsWith("report/"));
      assertThat(list.files()).isEqualTo(found);
    }
  }

  @Test
  void theReportSaysOfWhichTablesItIs() throws IOException {
    study("first");
    try (StudyFolder study = finished()) {
      assertThat(study.hasOlderReport()).isFalse();
    }
    read("second");

    assertThat(folder.resolve("report/index.html")).hasContent("first");
    try (StudyFolder study = finished()) {
      assertThat(study.hasOlderReport()).isTrue();
      study.publish(OneRowStudy.pages("second"));
      assertThat(study.hasOlderReport()).isFalse();
    }
    assertThat(names()).containsExactly(FINISHED);
  }

  @Test
  void aReportThatCannotBeWrittenLeavesTheTablesOfBefore() throws IOException {
    study("first");
    Map<String, String> before = contents(folder);

    assertThatThrownBy(
            () -> {
              try (StudyFolder study = writing()) {
                study.commit(
                    OneRowStudy.write(study, "second", configuration),
                    (tables, manifest, into) -> {
                      Files.writeString(into.resolve("index.html"), "half");
                      throw new IOException("No space left on device");
                    });
              }
            })
        .hasMessage("No space left on device");

    assertThat(contents(folder)).isEqualTo(before);
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
    assertThat(contents(folder)).containsOnlyKeys("diary.txt");
  }

  @Test
  void someoneElsesManifestDoesNotMakeAFolderOurs() throws IOException {
    Files.createDirectories(folder);
    Files.writeString(folder.resolve("manifest.json"), "{\"short_name\":\"app\"}");

    assertThatThrownBy(this::writing).hasMessageContaining("holds no study of this program");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        ".lock",
        ".phrase-census",
        "current-00000001.json",
        "generation-00112233445566778899aabbccddeeff/tables/data.csv",
        "report-00112233445566778899aabbccddeeff/index.html",
        "files.sha256"
      })
  void noNameProvesThatAFolderIsOurs(String name) throws IOException {
    Files.createDirectories(folder.resolve(name).getParent());
    Files.writeString(folder.resolve(name), "{\"generation\": \"tables\", \"report\": \"report\"}");
    for (String file : List.of("report/thesis.txt", "tables/data.csv", "manifest.json")) {
      Files.createDirectories(folder.resolve(file).getParent());
      Files.writeString(folder.resolve(file), file);
    }
    Map<String, String> before = contents(folder);

    assertThatThrownBy(this::writing).hasMessageContaining("holds no study of this program");

    assertThat(contents(folder)).isEqualTo(before);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        ".next/build.txt",
        ".left/mine.txt",
        ".previous/mine.txt",
        ".lock",
        ".report-unfinished/mine.txt",
        ".working-00112233445566778899aabbccddeeff/mine.txt",
        ".working-mine/complete.sha256"
      })
  void hiddenFilesOfSomebodyElseStayBesideTheStudy(String name) throws IOException {
    Files.createDirectories(folder.resolve(name).getParent());
    Files.writeString(folder.resolve(name), "mine");

    study("first");
    study("second");

    assertThat(folder.resolve(name)).hasContent("mine");
    assertThat(title()).isEqualTo("second");
  }

  @Test
  void aLockFileOfSomebodyElseIsRefused() throws IOException {
    Files.createDirectories(folder);
    Files.writeString(folder.resolve(StudyLock.FILE_NAME), "mine");

    assertThatThrownBy(this::writing)
        .hasMessageContaining("its file .phrase-census-lock is not this program's");
    assertThat(folder.resolve(StudyLock.FILE_NAME)).hasContent("mine");
  }

  @Test
  void anExportIsNoStudy() throws IOException {
    Files.createDirectories(folder);
    Files.write(
        folder.resolve(FolderMarker.FILE_NAME), FolderMarker.of(FolderMarker.Kind.EXPORT).bytes());

    assertThatThrownBy(this::writing).hasMessageContaining("holds an export of a study, not");
    assertThatThrownBy(this::finished).hasMessageContaining("it is an export of one");
  }

  @Test
  void anExportWithoutItsHiddenFileIsNoStudyEither() throws IOException {
    study("first");
    Files.delete(folder.resolve(FolderMarker.FILE_NAME));
    Files.writeString(folder.resolve("SHA256SUMS"), "");
    Files.writeString(folder.resolve("datapackage.json"), "{}");

    assertThatThrownBy(this::writing).hasMessageContaining("holds an export of a study, not");
  }

  @Test
  void aFileBesideThePagesStaysWhereItIs() throws IOException {
    study("first");
    Files.writeString(folder.resolve("report/thesis.txt"), "mine");
    Files.createDirectories(folder.resolve("report/chapters"));
    Files.writeString(folder.resolve("report/chapters/one.txt"), "mine too");
    Files.createSymbolicLink(folder.resolve("report/nowhere"), Path.of("gone"));

    study("second");
    try (StudyFolder study = finished()) {
      study.publish(OneRowStudy.pages("third"));
    }

    assertThat(folder.resolve("report/thesis.txt")).hasContent("mine");
    assertThat(folder.resolve("report/chapters/one.txt")).hasContent("mine too");
    assertThat(Files.isSymbolicLink(folder.resolve("report/nowhere"))).isTrue();
    assertThat(folder.resolve("report/index.html")).hasContent("third");
    assertThat(names()).containsExactly(FINISHED);
  }

  @Test
  void aPageThatSomebodyChangedIsKeptAside() throws IOException {
    study("first");
    Files.writeString(folder.resolve("report/index.html"), "with my remarks");

    List<String> told = study("second");

    assertThat(folder.resolve("report/index.html")).hasContent("second");
    assertThat(setAside().resolve("report/index.html")).hasContent("with my remarks");
    assertThat(told)
        .containsExactly(
            "Not as report/files.sha256, the list of the pages, has it, and kept in "
                + setAside()
                + ": report/index.html. Delete it when nobody needs it.");
  }

  @Test
  void aStudyInsideTheReportIsNotDeletedByItsOwnList() throws IOException {
    study("first");
    Path other = temporary.resolve("other");
    try (StudyFolder study = StudyFolder.forWriting(other.toString(), configuration)) {
      study.commit(OneRowStudy.write(study, "other", configuration));
    }
    Map<String, String> before = contents(other);
    Files.move(other, folder.resolve("report/other"));

    study("second");

    assertThat(contents(folder.resolve("report/other"))).isEqualTo(before);
  }

  @Test
  void aFileAmongTheTablesStopsTheRun() throws IOException {
    study("first");
    Path mine = folder.resolve("tables/problems/mine.parquet");
    Files.writeString(mine, "mine");
    Map<String, String> before = contents(folder);

    for (boolean reading : new boolean[] {true, false}) {
      assertThatThrownBy(() -> (reading ? finished() : writing()).close())
          .isInstanceOf(InputException.class)
          .hasMessageEndingWith(
              ": tables/problems/mine.parquet was put there by somebody else. Nothing was touched;"
                  + " move it elsewhere and run the same command again.");
    }
    assertThat(contents(folder)).isEqualTo(before);
  }

  @Test
  void whatASystemLeavesAmongTheTablesStaysThere() throws IOException {
    study("first");
    Files.writeString(folder.resolve("tables/.DS_Store"), "icons");

    study("second");

    assertThat(folder.resolve("tables/.DS_Store")).hasContent("icons");
    assertThat(title()).isEqualTo("second");
  }

  @Test
  void tablesThatALinkLeadsToAreNotDeletedThroughIt() throws IOException {
    study("first");
    Path elsewhere = temporary.resolve("elsewhere");
    Files.createDirectories(elsewhere);
    Files.writeString(elsewhere.resolve("mine.txt"), "mine");
    Files.createSymbolicLink(folder.resolve("report/elsewhere"), elsewhere);

    study("second");

    assertThat(elsewhere.resolve("mine.txt")).hasContent("mine");
    assertThat(folder.resolve("report/elsewhere/mine.txt")).hasContent("mine");
  }

  @Test
  void aFileIsNoFolder() throws IOException {
    Files.writeString(folder, "x");

    assertThatThrownBy(this::writing)
        .hasMessage("Cannot write the study into " + folder + ": it is a file, not a folder.");
  }

  @Test
  void theMarkerIsThereBeforeAnythingElse() {
    try (StudyFolder study = writing()) {
      assertThat(folder.resolve(FolderMarker.FILE_NAME))
          .hasBinaryContent(FolderMarker.of(FolderMarker.Kind.STUDY).bytes());
      Path working = Path.of(study.nextTables().getParent().toUri().getPath());
      assertThat(working.resolve(FolderMarker.FILE_NAME))
          .hasBinaryContent(FolderMarker.working(working.getFileName().toString()).bytes());
    }
  }

  @Test
  void aFolderThatARunLeavesWithoutAStudyIsAsItWas() throws IOException {
    writing().close();
    assertThat(folder).doesNotExist();

    Files.createDirectories(folder);
    writing().close();
    assertThat(folder).isEmptyDirectory();
  }

  @ParameterizedTest
  @ValueSource(strings = {"manifest.json", "files.sha256", ".phrase-census"})
  void aStudyWithAnEmptyFileIsStillKnownAndHeals(String name) throws IOException {
    study("first");
    Files.writeString(folder.resolve(name), "");

    List<String> told = study("second");

    assertThat(title()).isEqualTo("second");
    assertThat(folder.resolve("report/index.html")).hasContent("second");
    // The beginning of a marker is what a killed run leaves, and is written whole without a word.
    assertThat(told.isEmpty()).isEqualTo(name.equals(FolderMarker.FILE_NAME));
  }

  @ParameterizedTest
  @ValueSource(ints = {0, 1, 100})
  void aRunThatDiesWhileItWritesAMarkerStopsNobody(int bytes) throws IOException {
    Path working = folder.resolve(".working-00112233445566778899aabbccddeeff");
    Files.createDirectories(working);
    byte[] marker = FolderMarker.of(FolderMarker.Kind.STUDY).bytes();
    Files.write(folder.resolve(FolderMarker.FILE_NAME), Arrays.copyOf(marker, bytes));
    marker = FolderMarker.working(working.getFileName().toString()).bytes();
    Files.write(working.resolve(FolderMarker.FILE_NAME), Arrays.copyOf(marker, bytes));

    study("first");

    assertThat(title()).isEqualTo("first");
    assertThat(names()).containsExactly(FINISHED);
  }

  @Test
  void aStudyOfWhichAPowerCutLeftEmptyFilesAloneIsSetAsideAndMadeAgain() throws IOException {
    study("first");
    for (String name : contents(folder).keySet()) {
      if (!name.equals(FolderMarker.FILE_NAME)) {
        Files.writeString(folder.resolve(name), "");
      }
    }

    study("second");

    assertThat(title()).isEqualTo("second");
    assertThat(contents(setAside()))
        .containsOnlyKeys(
            "manifest.json",
            "files.sha256",
            TABLE,
            "report/index.html",
            "report/student.html",
            "report/files.sha256");
  }

  @ParameterizedTest
  @ValueSource(strings = {TABLE, "manifest.json", "files.sha256"})
  void aDamagedFileStopsACommandThatHasNoScores(String name) throws IOException {
    study("first");
    flip(folder.resolve(name));

    assertThatThrownBy(this::finished)
        .isInstanceOf(InputException.class)
        .hasMessageContaining(name)
        .hasMessageEndingWith(
            "Run 'phrase-census study' into it again, which reads anew what is damaged.");
  }

  @Test
  void aMissingTableStopsACommandThatHasNoScores() throws IOException {
    study("first");
    Files.delete(folder.resolve(TABLE));

    assertThatThrownBy(this::finished).hasMessageContaining(TABLE + " is not as written");
  }

  @Test
  void aRunThatDiesBeforeTheMarkLeavesTheOldStudy() throws IOException {
    study("first");
    OneRowStudy.write(writing(), "second", configuration);

    assertThat(title()).isEqualTo("first");
    assertThat(read("third")).isEmpty();
    assertThat(names()).containsExactly(FINISHED);
  }

  /** The state after each of the steps that follow the mark. */
  @ParameterizedTest
  @ValueSource(ints = {0, 1, 2, 3, 4, 5, 6, 7, 8})
  void aRunThatDiesAfterTheMarkIsFinishedByTheNext(int steps) throws IOException {
    study("first");
    Path second = temporary.resolve("second");
    try (StudyFolder study = StudyFolder.forWriting(second.toString(), configuration)) {
      study.commit(OneRowStudy.write(study, "second", configuration), OneRowStudy.pages("second"));
    }
    Path working = folder.resolve(".working-00112233445566778899aabbccddeeff");
    Files.move(second, working);
    Files.write(
        working.resolve(FolderMarker.FILE_NAME),
        FolderMarker.working(working.getFileName().toString()).bytes());
    Files.write(working.resolve("complete.sha256"), FileList.of(FileList.STUDY, Map.of()).bytes());
    Files.createDirectories(working.resolve("previous"));
    List<String> moved = List.of("tables", "report", "manifest.json", "files.sha256");
    for (int step = 0; step < steps; step++) {
      String name = moved.get(step / 2);
      if (step % 2 == 0) {
        Files.move(folder.resolve(name), working.resolve("previous").resolve(name));
      } else {
        Files.move(working.resolve(name), folder.resolve(name));
      }
    }

    assertThat(title()).isEqualTo("second");
    assertThat(folder.resolve("report/index.html")).hasContent("second");
    assertThat(names()).containsExactly(FINISHED);
  }

  @Test
  void aMarkThatIsDamagedDoesNotCount() throws IOException {
    study("first");
    Path working = folder.resolve(".working-00112233445566778899aabbccddeeff");
    Files.createDirectories(working.resolve("tables"));
    Files.write(
        working.resolve(FolderMarker.FILE_NAME),
        FolderMarker.working(working.getFileName().toString()).bytes());
    Files.writeString(working.resolve("complete.sha256"), "");

    assertThat(title()).isEqualTo("first");
  }

  @Test
  void twoRunsAtOnceAreRefused() throws IOException {
    Files.createDirectories(folder);
    // The parent of this process is alive for sure and is not this process.
    long other = ProcessHandle.current().parent().orElseThrow().pid();
    Files.writeString(folder.resolve(StudyLock.FILE_NAME), StudyLock.written(Long.toString(other)));

    assertThatThrownBy(this::writing).hasMessageContaining("another run is working on it");
  }

  @Test
  void theLockOfADeadRunIsTakenOver() throws IOException {
    Files.createDirectories(folder);
    Files.writeString(folder.resolve(StudyLock.FILE_NAME), StudyLock.written("999999999"));

    study("first");

    assertThat(title()).isEqualTo("first");
  }

  @Test
  void aFolderWithoutStudyCannotBeOpened() {
    assertThatThrownBy(this::finished)
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith("Cannot find a study in " + folder + ". Make one first:");
  }

  @Test
  void aManifestHoldsTheDigestOfEachPart() throws IOException {
    study("first");

    try (StudyFolder study = finished()) {
      Manifest.Table table = study.manifest().tables().get(OneRowStudy.TABLE);
      assertThat(table.parts())
          .containsExactly(Map.entry(OneRowStudy.PART, new Manifest.Part(1, table.digest())));
    }
  }
}
