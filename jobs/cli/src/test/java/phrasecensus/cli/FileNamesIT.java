package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.TableRow;

/** Files and folders with every kind of name that a disk takes, from listing to export. */
class FileNamesIT {
  private static final Path SAMPLE =
      Path.of(System.getProperty("project.root"), "sample-corpus", "corpus");

  private static final List<String> NAMES =
      List.of(
          "Take: one.musicxml",
          "Where or when?.musicxml",
          "100% ready %41.musicxml",
          "Etude #3.musicxml",
          "a+b &amp; <i>.musicxml",
          "-dash first.musicxml",
          "trailing space.musicxml ",
          "back\\slash \"quoted\".musicxml",
          "two\nlines.musicxml",
          "Cafe\u0301.musicxml");

  @TempDir private static Path temporary;
  private static Path corpus;
  private static Path study;
  private static CommandRun first;

  @BeforeAll
  static void study() throws IOException {
    corpus = Files.createDirectories(temporary.resolve("cor:pus #1/in: side"));
    List<Path> scores;
    try (Stream<Path> files = Files.list(SAMPLE)) {
      scores = files.filter(file -> file.toString().endsWith(".musicxml")).sorted().toList();
    }
    StringBuilder metadata = new StringBuilder("file,style\n");
    int next = 0;
    Path students = Files.createDirectories(temporary.resolve("stu:dents/An: na?"));
    try (ZipOutputStream zip =
        new ZipOutputStream(Files.newOutputStream(corpus.resolve("arch: ive %.zip")))) {
      for (String name : NAMES) {
        Files.copy(scores.get(next++), corpus.resolve(name));
        zip.putNextEntry(new ZipEntry(name));
        zip.write(Files.readAllBytes(scores.get(next++)));
        metadata.append(row(name)).append(row("arch: ive %.zip/" + name));
        if (next < 8) {
          Files.copy(scores.get(30 + next), students.resolve(name));
        }
      }
    }
    Files.writeString(corpus.resolve("solos.csv"), metadata);
    study = temporary.resolve("stu:dy %?#");
    first = run();
  }

  private static String row(String name) {
    return '"' + name.replace("\"", "\"\"") + "\",blues\n";
  }

  private static CommandRun run() {
    return CommandRun.of(
        "study",
        corpus.toString(),
        "--students",
        temporary.resolve("stu:dents").toString(),
        "--by",
        "style",
        "--into",
        study.toString());
  }

  @Test
  void everyFileIsReadAndStandsUnchangedInTheTable() {
    assertThat(first.exitCode()).as(first.err()).isEqualTo(ExitCode.DONE);
    List<String> expected = new ArrayList<>(NAMES);
    // Java writes entries as DOS would, where a backslash parts folders (APPNOTE.TXT 4.4.2,
    // 4.4.17).
    NAMES.forEach(name -> expected.add("arch: ive %.zip/" + name.replace('\\', '/')));
    assertThat(column("files", "corpus", "outcome")).containsOnly("read");
    assertThat(column("files", "corpus", "file")).containsExactlyInAnyOrderElementsOf(expected);
  }

  @Test
  void everyFileHasItsRowOfMetadata() {
    assertThat(first.err()).doesNotContain("without a row").doesNotContain("without a file");
    assertThat(column("solos", "corpus", "style")).hasSize(2 * NAMES.size()).containsOnly("blues");
  }

  @Test
  void secondRunTakesAllOver() {
    CommandRun again = run();

    assertThat(again.exitCode()).isEqualTo(ExitCode.DONE);
    assertThat(again.out()).contains("taken over from it: " + (2 * NAMES.size() + 3) + " files.");
  }

  @Test
  void everyLinkOfTheReportLeadsSomewhere() throws IOException {
    Pattern link = Pattern.compile("href=\"([^\"#]+)");
    Path report = study.resolve("report");
    int links = 0;
    for (Path page : pages(report)) {
      Matcher found = link.matcher(Files.readString(page));
      while (found.find()) {
        if (!found.group(1).startsWith("data:") && !found.group(1).startsWith("http")) {
          links++;
          assertThat(report.resolve(URI.create(found.group(1)).getPath())).exists();
        }
      }
    }
    assertThat(links).isPositive();
    assertThat(Files.readString(report.resolve("index.html"))).doesNotContain("<i>.musicxml");
  }

  private static List<Path> pages(Path report) throws IOException {
    try (Stream<Path> files = Files.list(report)) {
      return files.filter(file -> file.toString().endsWith(".html")).toList();
    }
  }

  @Test
  void exportHoldsEveryNameAsItStands() throws IOException {
    Path export = temporary.resolve("ex:port");

    CommandRun run = CommandRun.of("export", study.toString(), "--into", export.toString());

    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    String csv;
    try (Stream<Path> files = Files.walk(export)) {
      csv =
          Files.readString(
              files
                  .filter(file -> file.getFileName().toString().equals("files.csv"))
                  .findFirst()
                  .orElseThrow(),
              StandardCharsets.UTF_8);
    }
    for (String name : NAMES) {
      assertThat(csv).contains(name.replace("\"", "\"\""));
    }
  }

  @Test
  void eachIsInspectedBehindTwoDashes() {
    for (String name : NAMES) {
      CommandRun run = CommandRun.of("inspect", "--", corpus.resolve(name).toString());
      assertThat(run.exitCode()).as(name + ": " + run.err()).isEqualTo(ExitCode.DONE);
    }
  }

  private static List<String> column(String table, String role, String column) {
    try (StudyFolder folder = StudyFolder.finished(study.toString(), StudyFolder.configuration())) {
      return folder.source().rows(table).stream()
          .filter(row -> row.text("role").equals(role))
          .map((TableRow row) -> row.text(column))
          .toList();
    }
  }
}
