package phrasecensus.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileSystem;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import phrasecensus.fixtures.ShelfFileSystem;
import phrasecensus.tables.InputException;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.StudyPointer;
import phrasecensus.tables.TableRow;

/** Studies on a store that renames no folder, and what is left of them when something fails. */
class PointedPlacesTest {
  @TempDir private Path temporary;
  private final Configuration configuration = ShelfFileSystem.configuration();
  private Path folder;

  @BeforeEach
  void nameTheFolder() {
    folder = temporary.resolve("study");
  }

  @AfterEach
  void askByOption() {
    ShelfFileSystem.setCondition(ShelfFileSystem.Condition.OPTION);
  }

  private StudyFolder writing() {
    return StudyFolder.forWriting(ShelfFileSystem.address(folder), configuration);
  }

  private StudyFolder finished() {
    return StudyFolder.finished(ShelfFileSystem.address(folder), configuration);
  }

  private Manifest write(StudyFolder study, String title) throws IOException {
    return OneRowStudy.write(study, title, configuration);
  }

  private void publish(StudyFolder study, String title) {
    study.publish(OneRowStudy.pages(title));
  }

  /** What the command read does: tables alone. */
  private void read(String title) throws IOException {
    try (StudyFolder study = writing()) {
      study.commit(write(study, title));
    }
  }

  /** What the command study does: tables and their report. */
  private void study(String title) throws IOException {
    StudyFolder study = writing();
    try {
      study.commit(write(study, title), OneRowStudy.pages(title));
    } catch (IOException | InputException e) {
      study.close();
      throw e;
    }
    study.close();
  }

  /** The title of the study that is there; fails when it is not whole. */
  private String title() {
    try (StudyFolder study = finished()) {
      List<TableRow> rows = study.source().rows("problems");
      assertThat(rows).extracting(row -> row.text("solo_id")).hasSize(1);
      assertThat(rows.get(0).text("solo_id")).isEqualTo(study.manifest().study().title());
      return rows.get(0).text("solo_id");
    }
  }

  private Set<String> names() throws IOException {
    Set<String> names = new TreeSet<>();
    try (Stream<Path> files = Files.list(folder)) {
      files.forEach(file -> names.add(file.getFileName().toString()));
    }
    return names;
  }

  private Path pointerFile() throws IOException {
    return folder.resolve(
        names().stream().filter(n -> n.startsWith("current-")).reduce((a, b) -> b).orElseThrow());
  }

  private StudyPointer pointer() throws IOException {
    return StudyPointer.parse("pointer", Files.readAllBytes(pointerFile()));
  }

  /** The title on the pages of the report that is there; fails when they are not whole. */
  private String reportTitle() throws IOException {
    Path pages = folder.resolve(pointer().report());
    assertThat(pages.resolve("student.html")).hasSameTextualContentAs(pages.resolve("index.html"));
    return Files.readString(pages.resolve("index.html"));
  }

  private void assertNothingIsLeftBehind() throws IOException {
    StudyPointer pointer = pointer();
    assertThat(names())
        .containsExactlyInAnyOrder(
            ".phrase-census",
            pointerFile().getFileName().toString(),
            pointer.generation(),
            pointer.report());
  }

  @Test
  void aCommitMovesThePointerAndSweepsWhatWasThere() throws IOException {
    study("first");
    study("second");

    assertThat(title()).isEqualTo("second");
    assertThat(reportTitle()).isEqualTo("second");
    assertThat(pointerFile()).hasFileName("current-00000002.json");
    assertNothingIsLeftBehind();
    assertThat(ShelfFileSystem.folderRenames()).isZero();
  }

  @Test
  void aFolderNameIsNeverUsedAgain() throws IOException {
    Set<String> generations = new TreeSet<>();
    for (int i = 0; i < 3; i++) {
      study("same");
      generations.add(pointer().generation());
    }

    assertThat(generations).hasSize(3);
  }

  @Test
  void theFolderThatThePointerNamesIsAStudyOfItsOwn() throws IOException {
    study("first");

    try (StudyFolder copy =
        StudyFolder.finished(
            folder.resolve(pointer().generation()).toString(), StudyFolder.configuration())) {
      assertThat(copy.manifest().study().title()).isEqualTo("first");
    }
  }

  @Test
  void aCopyOfTheFolderOnADiskIsReadByItsPointer() throws IOException {
    study("first");

    try (StudyFolder copy = StudyFolder.finished(folder.toString(), StudyFolder.configuration())) {
      assertThat(copy.manifest().study().title()).isEqualTo("first");
    }
  }

  @Test
  void aStudyThatWasWrittenByRenamingGivesWayToThePointer() throws IOException {
    try (StudyFolder study =
        StudyFolder.forWriting(folder.toString(), StudyFolder.configuration())) {
      study.commit(write(study, "first"));
      publish(study, "first");
    }
    assertThat(title()).isEqualTo("first");
    try (StudyFolder study = finished()) {
      assertThatThrownBy(() -> publish(study, "none"))
          .hasMessageContaining("run 'phrase-census norms' on it first");

      study.commit(write(study, "second"));
    }

    assertThat(title()).isEqualTo("second");
    assertThat(reportTitle()).isEqualTo("first");
    study("third");
    assertNothingIsLeftBehind();
  }

  @Test
  void theSettingNamesTheMannerOfANewStudy() throws IOException {
    Configuration asked = StudyFolder.configuration();
    asked.set(StudyPlaces.SETTING, "pointer");
    try (StudyFolder study = StudyFolder.forWriting(folder.toString(), asked)) {
      study.commit(write(study, "first"));
    }
    assertThat(names()).contains("current-00000001.json").doesNotContain("manifest.json");
    asked.set(StudyPlaces.SETTING, "hope");

    assertThatThrownBy(() -> StudyFolder.forWriting(folder.toString(), asked))
        .isInstanceOf(InputException.class)
        .hasMessage("Invalid value for phrasecensus.commit: hope. Say rename or pointer.");
  }

  /** At every call to the store in turn, from opening the folder to closing it. */
  @ParameterizedTest
  @EnumSource
  void noFailureAtWhateverCallCostsTheStudy(ShelfFileSystem.Failure failure) throws IOException {
    study("first");
    Path first = copy(folder, temporary.resolve("first"));
    Set<String> found = new TreeSet<>();
    int call = 0;
    boolean failed = true;
    while (failed) {
      call++;
      delete(folder);
      copy(first, folder);
      ShelfFileSystem.failAt(call, failure);
      try {
        study("second");
      } catch (ShelfFileSystem.Killed | IOException | InputException e) {
        // What is left is what counts.
      }
      failed = ShelfFileSystem.endOfFailures();

      String title = title();
      assertThat(title).as("after a failure at call %d", call).isIn("first", "second");
      assertThat(reportTitle()).as("report, call %d", call).isIn("first", "second");
      found.add(title + " with report " + reportTitle());
      study("third");
      assertThat(title()).as("the run after a failure at call %d", call).isEqualTo("third");
      assertThat(reportTitle()).isEqualTo("third");
      assertNothingIsLeftBehind();
    }

    assertThat(call).isGreaterThan(30);
    assertThat(found)
        .containsExactlyInAnyOrder("first with report first", "second with report second");
    assertThat(ShelfFileSystem.folderRenames()).isZero();
  }

  @Test
  void noFailureOfTheFirstRunStopsTheNext() throws IOException {
    int call = 0;
    boolean failed = true;
    while (failed) {
      call++;
      delete(folder);
      ShelfFileSystem.failAt(call, ShelfFileSystem.Failure.KILL);
      try {
        study("first");
      } catch (ShelfFileSystem.Killed e) {
        // What is left is what counts.
      }
      failed = ShelfFileSystem.endOfFailures();
      study("second");
      assertThat(title()).as("after a failure at call %d", call).isEqualTo("second");
      assertNothingIsLeftBehind();
    }

    assertThat(call).isGreaterThan(20);
  }

  @Test
  void whatAKilledRunHasWrittenIsOfferedToTheNext() throws IOException {
    study("first");
    StudyFolder killed = writing();
    write(killed, "second");
    org.apache.hadoop.fs.Path left = killed.nextTables().getParent();

    try (StudyFolder study = writing()) {
      assertThat(study.earlier()).containsExactly(study.tables().getParent(), left);
    }
    study("third");
    assertNothingIsLeftBehind();
  }

  @Test
  void ofTwoRunsOnOneStudyTheSlowerIsToldAndCostsNothing() throws IOException {
    study("first");
    StudyFolder slow = writing();
    Manifest manifest = write(slow, "slow");
    study("fast");

    assertThatThrownBy(() -> slow.commit(manifest))
        .isInstanceOf(IOException.class)
        .hasMessageStartingWith("another run has changed the study meanwhile");
    slow.close();

    assertThat(title()).isEqualTo("fast");
    assertThat(reportTitle()).isEqualTo("fast");
  }

  /** As if no lock held, at every call to the store in turn. */
  @ParameterizedTest
  @EnumSource
  void aRunThatFinishesInsideAnotherOneCostsNeitherStudy(ShelfFileSystem.Condition condition)
      throws IOException {
    ShelfFileSystem.setCondition(condition);
    study("first");
    Path first = copy(folder, temporary.resolve("first"));
    Set<String> found = new TreeSet<>();
    int call = 0;
    boolean came = true;
    while (came) {
      call++;
      delete(folder);
      copy(first, folder);
      ShelfFileSystem.beforeCall(
          call,
          () -> {
            try {
              read("fast");
            } catch (IOException e) {
              throw new UncheckedIOException(e);
            }
          });
      String told = "";
      try {
        study("slow");
      } catch (IOException | InputException e) {
        told = e.getMessage();
      }
      came = ShelfFileSystem.endOfFailures();

      String title = title();
      // The other run has finished and was told so: the study before it must not be back.
      assertThat(title).as("call %d", call).isIn(came ? List.of("fast", "slow") : List.of("slow"));
      found.add(title + (told.contains("another run has changed") ? ", slow was told" : ""));
      if (condition != ShelfFileSystem.Condition.NONE) {
        // Without any condition the pages can go; the tables to make them anew stay.
        assertThat(reportTitle()).as("call %d", call).isIn("first", "slow");
      }
      study("third");
      assertNothingIsLeftBehind();
    }

    assertThat(found).contains("fast, slow was told", "slow");
  }

  @Test
  void aHalfPointerOfAStoreThatCanLeaveOneDoesNotCount() throws IOException {
    study("first");
    Files.writeString(folder.resolve("current-00000003.json"), "{\"gen");

    assertThat(title()).isEqualTo("first");
    study("second");
    assertThat(pointerFile()).hasFileName("current-00000004.json");
    assertThat(title()).isEqualTo("second");
    // Nothing in it proves that it is this program's.
    assertThat(folder.resolve("current-00000003.json")).hasContent("{\"gen");
  }

  @Test
  void aRunThatLivesHoldsTheStudy() throws IOException {
    study("first");
    Files.writeString(folder.resolve(StudyLock.FILE_NAME), StudyLock.written("somebody else"));

    for (boolean reading : new boolean[] {true, false}) {
      assertThatThrownBy(() -> (reading ? finished() : writing()).close())
          .isInstanceOf(InputException.class)
          .hasMessage(
              "Cannot write the study into "
                  + ShelfFileSystem.address(folder)
                  + ": another run is working on it. Wait for it to end; where one was killed, the"
                  + " study is free a minute later.");
    }
    assertThat(names())
        .filteredOn(name -> name.startsWith("."))
        .containsExactly(".phrase-census", StudyLock.FILE_NAME);
  }

  @Test
  void aLockThatIsNotRenewedIsTakenOver() throws IOException {
    study("first");
    Path lock = folder.resolve(StudyLock.FILE_NAME);
    Files.writeString(lock, StudyLock.written("somebody else"));
    Files.setLastModifiedTime(lock, FileTime.from(Instant.now().minus(Duration.ofMinutes(2))));

    study("second");

    assertThat(title()).isEqualTo("second");
    assertNothingIsLeftBehind();
  }

  @Test
  void aLockIsRenewedUntilItIsReleasedOrTakenOver() throws Exception {
    FileSystem shelf =
        new org.apache.hadoop.fs.Path(ShelfFileSystem.address(folder)).getFileSystem(configuration);
    Path file = folder.resolve(".phrase-census-lock");
    org.apache.hadoop.fs.Path path = new org.apache.hadoop.fs.Path(ShelfFileSystem.address(file));
    StudyLock lock = new StudyLock.Renewed(shelf, path, Duration.ofMillis(10));
    lock.create();
    FileTime longAgo = FileTime.from(Instant.now().minus(Duration.ofMinutes(5)));
    Files.setLastModifiedTime(file, longAgo);

    for (int i = 0; i < 1000 && Files.getLastModifiedTime(file).equals(longAgo); i++) {
      Thread.sleep(10);
    }
    assertThat(Files.getLastModifiedTime(file)).isGreaterThan(longAgo);

    Path others = temporary.resolve("others");
    Files.writeString(others, "somebody else");
    // Under the lock's own monitor: a renewal that has looked already must not write after this.
    synchronized (lock) {
      Files.move(others, file, StandardCopyOption.ATOMIC_MOVE);
    }
    lock.release();
    assertThat(new String(Files.readAllBytes(file), StandardCharsets.UTF_8))
        .isEqualTo("somebody else");
  }

  private static Path copy(Path from, Path to) throws IOException {
    try (Stream<Path> files = Files.walk(from)) {
      for (Path file : files.toList()) {
        Files.copy(file, to.resolve(from.relativize(file).toString()));
      }
    }
    return to;
  }

  private static void delete(Path folder) throws IOException {
    if (Files.exists(folder)) {
      try (Stream<Path> files = Files.walk(folder)) {
        for (Path file : files.sorted(java.util.Comparator.reverseOrder()).toList()) {
          Files.delete(file);
        }
      }
    }
  }
}
