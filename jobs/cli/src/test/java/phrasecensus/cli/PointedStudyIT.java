package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Every command on a study that a pointer makes current, as on an object store. */
class PointedStudyIT {
  private static final String SETTING = "spark.hadoop.phrasecensus.commit";

  @TempDir private static Path temporary;
  private static Path corpus;
  private static Path students;
  private static Path study;
  private static CommandRun run;

  @BeforeAll
  static void makeTheStudy() throws IOException {
    corpus = SampleCorpus.firstSolos(temporary.resolve("corpus"), 25);
    students = SampleCorpus.studentSolos(temporary.resolve("students"), "jory-venn");
    study = temporary.resolve("study");
    System.setProperty(SETTING, "pointer");
    try {
      run = study(study);
    } finally {
      System.clearProperty(SETTING);
    }
  }

  private static CommandRun study(Path into) {
    return done(
        "study", corpus.toString(), "--students", students.toString(), "--into", into.toString());
  }

  private static CommandRun done(String... arguments) {
    CommandRun run = CommandRun.of(arguments);
    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    return run;
  }

  /** Where a command says that something is. */
  private static Path told(CommandRun run, String what) {
    Matcher matcher = Pattern.compile("(?m)^" + what + ": (.+)$").matcher(run.out());
    assertThat(matcher.find()).as(run.out()).isTrue();
    return Path.of(matcher.group(1));
  }

  private static List<String> names(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.map(file -> file.getFileName().toString()).sorted().toList();
    }
  }

  @Test
  void theTablesAndTheReportAreWhereTheCommandSays() throws IOException {
    assertThat(names(told(run, "Tables"))).contains("files", "notes", "norms");
    assertThat(told(run, "Report")).isNotEmptyFile();
    assertThat(names(study))
        .hasSize(4)
        .satisfiesExactly(
            name -> assertThat(name).isEqualTo(".phrase-census"),
            name -> assertThat(name).isEqualTo("current-00000001.json"),
            name -> assertThat(name).startsWith("generation-"),
            name -> assertThat(name).startsWith("report-"));
  }

  @Test
  void itsExportAndItsReportAreThoseOfTheSameStudyOnADisk() {
    Path other = temporary.resolve("renamed");
    CommandRun renamed = study(other);
    Path export = temporary.resolve("export");
    Path otherExport = temporary.resolve("other-export");

    done("export", study.toString(), "--into", export.toString());
    done("export", other.toString(), "--into", otherExport.toString());

    assertThat(FolderBytes.of(export)).isEqualTo(FolderBytes.of(otherExport));
    Map<String, String> pages = FolderBytes.of(told(run, "Report").getParent());
    // It names the folder.
    pages.remove(".phrase-census");
    assertThat(pages).isEqualTo(FolderBytes.of(told(renamed, "Report").getParent()));
  }

  @Test
  void everyLaterCommandFindsTheTablesAndMovesThePointer() throws IOException {
    Path copy = temporary.resolve("copy");
    try (Stream<Path> files = Files.walk(study)) {
      for (Path file : files.toList()) {
        Files.copy(file, copy.resolve(study.relativize(file).toString()));
      }
    }
    String folder = copy.toString();

    assertThat(done("players", folder).out()).contains("players");
    assertThat(told(done("norms", folder, "--by", "style"), "Norms")).isNotEmptyDirectory();
    assertThat(told(done("compare", folder, "--students", students.toString()), "Departures"))
        .isNotEmptyDirectory();
    assertThat(told(done("patterns", folder), "Patterns")).isNotEmptyDirectory();
    assertThat(told(done("report", folder), "Report")).isNotEmptyFile();
    done(
        "sheet",
        folder,
        "--statistic",
        "phrase_length_bars",
        "--into",
        temporary.resolve("sheet").toString());

    assertThat(names(copy)).hasSize(4).contains("current-00000005.json");
    // What reads again takes over what has not changed.
    assertThat(study(copy).out()).contains("taken over from it: ");
    assertThat(names(copy)).hasSize(4).contains("current-00000006.json");
  }
}
