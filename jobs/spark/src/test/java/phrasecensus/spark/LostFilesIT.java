package phrasecensus.spark;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import phrasecensus.fixtures.FaultyFileSystem;
import phrasecensus.store.LostFile;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.InputException;
import phrasecensus.tables.StudyDefinition;

/** A corpus of which files or folders are gone, shut or failing when their turn comes. */
class LostFilesIT {
  private static final Path SAMPLE =
      Path.of(System.getProperty("project.root"), "sample-corpus", "corpus");

  private static StudySession session;
  private static List<Path> scores;

  @TempDir private Path temporary;
  private Path corpus;
  private int next;

  @BeforeAll
  static void open() throws IOException {
    System.setProperty("spark.master", "local[2]");
    session = StudySession.open();
    FaultyFileSystem.register(session.configuration());
    try (var files = Files.list(SAMPLE)) {
      scores = files.filter(file -> file.toString().endsWith(".musicxml")).sorted().toList();
    }
  }

  @AfterAll
  static void close() {
    session.close();
    System.clearProperty("spark.master");
  }

  @BeforeEach
  void corpus() throws IOException {
    corpus = Files.createDirectory(temporary.resolve("corpus"));
  }

  private void add(int files, String named) throws IOException {
    for (int i = 0; i < files; i++) {
      Path file = corpus.resolve(named + i + ".musicxml");
      Files.createDirectories(file.getParent());
      Files.copy(scores.get(next++ % scores.size()), file);
    }
  }

  private StudyRunner.Outcome read() {
    StudyDefinition study =
        StudyDefinition.ofFolder(
            FaultyFileSystem.address(corpus), temporary.resolve("study").toString());
    try (StudyFolder folder = StudyFolder.forWriting(study.into(), session.configuration())) {
      return new StudyRunner(session, line -> {}).read(study, folder);
    }
  }

  private String manifest() throws IOException {
    return Files.readString(temporary.resolve("study").resolve("manifest.json"));
  }

  @Test
  void aFewLostFilesAreToldAndTheRunGoesOn() throws IOException {
    add(11, "sound");
    add(9, "gone");

    StudyRunner.Outcome outcome = read();

    assertThat(outcome.read()).isEqualTo(11);
    assertThat(outcome.rejected()).hasSize(9).containsEntry("corpus/gone0.musicxml", LostFile.GONE);
  }

  @Test
  void aTenthOfALargeCorpusIsAFewToo() throws IOException {
    add(90, "sound");
    add(10, "gone");

    assertThat(read().rejected()).hasSize(10);
  }

  @Test
  void aCorpusThatDisappearsGivesNoStudyAndTheEarlierOneIsKept() throws IOException {
    add(40, "sound");
    read();
    String before = manifest();
    add(5, "gone");
    add(5, "failing");

    assertThatThrownBy(this::read)
        .isInstanceOf(InputException.class)
        .hasMessage(
            "Cannot finish the study: 10 of 50 files that were there when the folder was listed"
                + " were gone, or failed, when they were read. The first is"
                + " corpus/failing0.musicxml: The file could not be read: Input/output error. What"
                + " was finished before is as it was. See that the disk or the network they lie on"
                + " is there, and run the same command again.");
    assertThat(manifest()).isEqualTo(before);
  }

  @Test
  void filesThatMayNotBeReadAreNoLostCorpus() throws IOException {
    add(11, "sound");
    add(12, "shut");

    assertThat(read().rejected())
        .hasSize(12)
        .containsEntry("corpus/shut0.musicxml", "The file may not be read: permission denied.");
  }

  @Test
  void aFolderThatMayNotBeListedIsToldAndCountedAndTheRestIsRead() throws IOException {
    add(5, "sound");
    add(3, "shut/inside");

    StudyRunner.Outcome outcome = read();

    assertThat(outcome.read()).isEqualTo(5);
    assertThat(outcome.rejected())
        .containsExactly(
            Map.entry("corpus/shut/", "Nothing in this folder is read: permission denied."));
  }

  @Test
  void aFolderInThePlaceOfTheMetadataStopsTheRun() throws IOException {
    add(3, "sound");
    Files.createDirectory(corpus.resolve("solos.csv"));

    assertThatThrownBy(this::read)
        .isInstanceOf(InputException.class)
        .hasMessage(
            "Cannot read the file "
                + FaultyFileSystem.address(corpus.resolve("solos.csv"))
                + ": it is a folder. Give it another name, or put the file in its place.");
  }

  @Test
  void aLinkToNothingInThePlaceOfTheMetadataStopsTheRun() throws IOException {
    add(3, "sound");
    Files.createSymbolicLink(corpus.resolve("solos.csv"), Path.of("nowhere"));
    StudyDefinition study =
        StudyDefinition.ofFolder(corpus.toString(), temporary.resolve("study").toString());

    try (StudyFolder folder = StudyFolder.forWriting(study.into(), session.configuration())) {
      assertThatThrownBy(() -> new StudyRunner(session, line -> {}).read(study, folder))
          .isInstanceOf(InputException.class)
          .hasMessage(
              "Cannot read the file "
                  + corpus.resolve("solos.csv")
                  + ": it is a link to a file that is not there. Mend it, or take it away.");
    }
  }

  @Test
  @Timeout(value = 1, unit = TimeUnit.MINUTES)
  void aPipeInThePlaceOfTheMetadataStopsTheRunAndIsNeverOpened() throws Exception {
    add(3, "sound");
    Path pipe = corpus.resolve("solos.csv");
    assumeTrue(
        new ProcessBuilder("mkfifo", pipe.toString()).start().waitFor() == 0, "no pipes here");
    StudyDefinition study =
        StudyDefinition.ofFolder(corpus.toString(), temporary.resolve("study").toString());

    try (StudyFolder folder = StudyFolder.forWriting(study.into(), session.configuration())) {
      assertThatThrownBy(() -> new StudyRunner(session, line -> {}).read(study, folder))
          .isInstanceOf(InputException.class)
          .hasMessage(
              "Cannot read the file "
                  + pipe
                  + ": it is a pipe, a socket or a device, which may never come to an end. Put a"
                  + " file there, or take it away.");
    }
  }
}
