package phrasecensus.spark;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import phrasecensus.rows.FileRows.Stage;
import phrasecensus.rows.FileRows.StageWatch;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.StudyDefinition;
import phrasecensus.tables.TableRow;

/** Faults planted in every stage of reading: each costs its file and nothing else. */
class FileFaultIT {
  private static final Path SAMPLE =
      Path.of(System.getProperty("project.root"), "sample-corpus", "corpus");
  private static final int SOUND_FILES = 6;

  @TempDir private static Path temporary;
  private static Path corpus;

  @BeforeAll
  static void corpus() throws IOException {
    corpus = Files.createDirectory(temporary.resolve("corpus"));
    List<Path> scores;
    try (var files = Files.list(SAMPLE)) {
      scores =
          files.filter(file -> file.toString().endsWith(".musicxml")).sorted().limit(20).toList();
    }
    for (int i = 0; i < SOUND_FILES; i++) {
      Files.copy(scores.get(i), corpus.resolve("sound-" + i + ".musicxml"));
    }
    int next = SOUND_FILES;
    for (Stage stage : Stage.values()) {
      for (String kind : List.of("exception", "error", "recursion", "memory")) {
        Files.copy(scores.get(next++), corpus.resolve(stage + "-" + kind + ".musicxml"));
      }
    }
  }

  /** Fails in the way and the stage that a file's name tells. */
  private static StageWatch plant() {
    return (stage, file) -> {
      if (!file.startsWith(stage + "-")) {
        return;
      }
      if (file.contains("exception")) {
        throw new ArrayIndexOutOfBoundsException("planted");
      } else if (file.contains("error")) {
        throw new AssertionError("planted");
      } else if (file.contains("recursion")) {
        recurse(0);
      } else if (file.contains("memory")) {
        fill();
      }
    };
  }

  @SuppressWarnings("InfiniteRecursion") // until the stack is full, which is the fault to be told
  private static long recurse(long depth) {
    return recurse(depth + 1) + recurse(depth + 2);
  }

  /** Sixteen gigabytes at once, more than any test may have. */
  private static int fill() {
    return new long[Integer.MAX_VALUE - 8].length;
  }

  private StudyRunner.Outcome run(String into, StageWatch watch) {
    System.setProperty("spark.master", "local[2]");
    StudyDefinition study =
        StudyDefinition.ofFolder(corpus.toString(), temporary.resolve(into).toString());
    try (StudySession session = StudySession.open();
        StudyFolder folder = StudyFolder.forWriting(study.into(), session.configuration())) {
      return new StudyRunner(session, line -> {}).watching(watch).read(study, folder);
    } finally {
      System.clearProperty("spark.master");
    }
  }

  @Test
  void faultInAnyStageIsItsFilesRowAndTheRunGoesOn() {
    StudyRunner.Outcome outcome = run("faults", plant());

    assertThat(outcome.read()).isEqualTo(SOUND_FILES);
    assertThat(outcome.rejected()).hasSize(12).isEqualTo(reasons("faults"));
    assertThat(outcome.faults().keySet()).isEqualTo(outcome.rejected().keySet());
    for (Stage stage : Stage.values()) {
      assertThat(outcome.rejected().get("corpus/" + stage + "-exception.musicxml"))
          .matches(
              "A fault of the program in this file: ArrayIndexOutOfBoundsException in"
                  + " FileFaultIT\\.\\S+, line \\d+\\. Please report it, with the file if you"
                  + " may\\.");
      assertThat(outcome.rejected().get("corpus/" + stage + "-error.musicxml"))
          .startsWith("A fault of the program in this file: AssertionError in FileFaultIT.");
      assertThat(outcome.rejected().get("corpus/" + stage + "-recursion.musicxml"))
          .isEqualTo(
              "A fault of the program in this file: StackOverflowError in FileFaultIT.recurse."
                  + " Please report it, with the file if you may.");
      assertThat(outcome.rejected().get("corpus/" + stage + "-memory.musicxml"))
          .startsWith(
              "A fault of the program in this file (OutOfMemoryError): it is too large for");
    }
    assertThat(outcome.faults().get("corpus/READING-exception.musicxml"))
        .contains("java.lang.ArrayIndexOutOfBoundsException: planted")
        .contains("FileRows.read");
  }

  @Test
  void nextRunTriesAgainWhatFailed() {
    run("again", plant());

    StudyRunner.Outcome mended = run("again", (stage, file) -> {});

    assertThat(mended.read()).isEqualTo(SOUND_FILES + 12);
    assertThat(mended.reused()).isEqualTo(SOUND_FILES);
    assertThat(mended.faults()).isEmpty();
  }

  private static Map<String, String> reasons(String study) {
    try (StudyFolder folder =
        StudyFolder.finished(temporary.resolve(study).toString(), StudyFolder.configuration())) {
      return folder.source().rows("files").stream()
          .filter(row -> row.text("outcome").equals("rejected"))
          .collect(
              Collectors.toMap(
                  row -> row.text("role") + "/" + row.text("file"),
                  (TableRow row) -> row.text("reason")));
    }
  }
}
