package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TimeZone;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.TableRow;

/**
 * The study of the sample corpus gives the answers that its composer put in: {@code
 * sample-corpus/expected/students.csv} says who departs in what, and how far in each solo.
 */
class SampleStudyIT {
  private static final DateTimeFormatter AS_WRITTEN_OUT =
      DateTimeFormatter.ofPattern("d MMM uuuu", Locale.ENGLISH);

  /** The expected file names statistics in words of its own. */
  private static final Map<String, String> HINTS =
      Map.of(
          "phrase length in bars", "phrase_length_bars",
          "eighth-note share", "value_share_eighth",
          "landing chord-tone share", "landing_chord_tone_share");

  private static StudyFolder folder;

  @TempDir private Path temporary;

  @BeforeAll
  static void open() {
    folder = StudyFolder.finished(SampleStudy.folder().toString(), StudyFolder.configuration());
  }

  @AfterAll
  static void close() {
    folder.close();
  }

  /**
   * A line of the expected file.
   *
   * @param strength 1 for the whole departure
   * @param statistic key of the statistic that shows it
   */
  record Expected(
      String student, String file, String date, double strength, String facet, String statistic) {
    static List<Expected> all() throws IOException {
      List<String> lines = Files.readAllLines(SampleCorpus.FOLDER.resolve("expected/students.csv"));
      assertThat(lines.get(0))
          .isEqualTo("student,file,date,departure_strength,facet,statistic_hint");
      List<Expected> all = new ArrayList<>();
      for (String line : lines.subList(1, lines.size())) {
        String[] cells = line.split(",", -1);
        assertThat(HINTS).containsKey(cells[5]);
        all.add(
            new Expected(
                cells[0],
                cells[1],
                cells[2],
                Double.parseDouble(cells[3]),
                cells[4],
                HINTS.get(cells[5])));
      }
      return all;
    }

    /** The solos at full strength, one a student. */
    static List<Expected> atFullStrength() throws IOException {
      List<Expected> full = all().stream().filter(each -> each.strength() == 1).toList();
      assertThat(full).extracting(Expected::student).doesNotHaveDuplicates().hasSize(3);
      return full;
    }

    String soloId() {
      return "student/" + file;
    }
  }

  static List<Expected> atFullStrength() throws IOException {
    return Expected.atFullStrength();
  }

  /** The ranked departures of one solo, or of all with an empty id, largest place first. */
  private static List<TableRow> ranking(String student, String soloId, String groupBy) {
    return folder
        .source()
        .rows("departures", Map.of("student", student, "solo_id", soloId, "group_by", groupBy))
        .stream()
        .filter(row -> !row.isMissing("place"))
        .sorted(Comparator.comparing((TableRow row) -> row.integer("place")))
        .toList();
  }

  private static double departure(Expected expected) {
    return folder
        .source()
        .rows(
            "departures",
            Map.of(
                "student", expected.student(),
                "solo_id", expected.soloId(),
                "group_by", "all",
                "statistic", expected.statistic()))
        .stream()
        .mapToDouble(row -> Math.abs(row.number("distance")))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void everyFileIsAccountedFor() throws IOException {
    Set<String> onDisk = new LinkedHashSet<>();
    for (String role : List.of("corpus", "student")) {
      Path root = SampleCorpus.FOLDER.resolve(role.equals("corpus") ? "corpus" : "students");
      try (Stream<Path> files = Files.walk(root)) {
        files
            .filter(file -> file.toString().matches(".*\\.(musicxml|xml|mxl)"))
            .forEach(file -> onDisk.add(role + "/" + root.relativize(file)));
      }
    }

    List<TableRow> files = folder.source().rows("files");

    assertThat(onDisk).hasSize(75);
    assertThat(files)
        .extracting(row -> row.text("role") + "/" + row.text("file"))
        .containsExactlyInAnyOrderElementsOf(onDisk);
    assertThat(files).allMatch(row -> row.text("outcome").equals("read"));
    assertThat(folder.source().rows("solos")).hasSize(75);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("atFullStrength")
  void theExpectedFacetDepartsMost(Expected expected) {
    List<TableRow> solo = ranking(expected.student(), expected.soloId(), "all");
    List<TableRow> pooled = ranking(expected.student(), "", "all");

    assertThat(solo.get(0).text("facet")).isEqualTo(expected.facet());
    assertThat(pooled.get(0).text("facet")).isEqualTo(expected.facet());
  }

  /** Several statistics show the same habit, so the one named need not come first of its facet. */
  @ParameterizedTest(name = "{0}")
  @MethodSource("atFullStrength")
  void theExpectedStatisticIsAmongTheFirstOfItsFacet(Expected expected) {
    assertThat(firstOfFacet(expected, "all", 5)).contains(expected.statistic());
    assertThat(firstOfFacet(expected, "style", 3)).contains(expected.statistic());
  }

  private static List<String> firstOfFacet(Expected expected, String groupBy, int count) {
    return ranking(expected.student(), expected.soloId(), groupBy).stream()
        .filter(row -> row.text("facet").equals(expected.facet()))
        .limit(count)
        .map(row -> row.text("statistic"))
        .toList();
  }

  @Test
  void everyStudentComesNearerToTheCorpusWithEverySolo() throws IOException {
    Map<String, List<Double>> departures = new LinkedHashMap<>();
    Expected.all().stream()
        .sorted(Comparator.comparing(Expected::date))
        .forEach(
            each ->
                departures
                    .computeIfAbsent(each.student(), student -> new ArrayList<>())
                    .add(departure(each)));

    assertThat(departures).hasSize(3);
    departures.forEach(
        (student, distances) -> {
          assertThat(distances).as(student).hasSize(5);
          assertThat(distances)
              .as(student)
              .isSortedAccordingTo(Comparator.<Double>reverseOrder())
              .doesNotHaveDuplicates();
          assertThat(distances.get(4)).as(student).isLessThan(distances.get(0) / 2);
        });
  }

  @Test
  void everyPlayerIsHeldAgainstTheOthersAndTheFarthestIsToldMoreOf() {
    CommandRun run =
        CommandRun.of(
            "players", SampleStudy.folder().toString(), "--farthest", "1", "--statistics", "2");

    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    List<String> rows = run.out().lines().filter(line -> line.startsWith("| ")).toList();
    assertThat(rows.get(0)).startsWith("| player | solos | outside | expected |");
    assertThat(rows.subList(1, rows.size()))
        .hasSameSizeAs(
            folder.source().rows("solos", Map.of("role", "corpus")).stream()
                .map(row -> row.text("performer"))
                .distinct()
                .toList())
        .allMatch(row -> row.chars().filter(letter -> letter == '|').count() == 9);
    assertThat(run.out())
        .containsPattern("Values of single solos outside: 0\\.\\d{3} of \\d+ \\(expected 0\\.1")
        .containsPattern("(?m)^1\\. .+, distance \\d+\\.\\d\\d$")
        .containsPattern("(?m)^   .+, the others .+; strength \\d")
        .doesNotContain("NaN", "null", "Infinity");
  }

  @Test
  void everyStudentHasAPageThatIsLinked() throws IOException {
    Path report = SampleStudy.folder().resolve("report");
    String corpus = Files.readString(report.resolve("index.html"));

    for (Expected each : Expected.atFullStrength()) {
      String file =
          "student-" + each.student().toLowerCase(Locale.ROOT).replace(' ', '-') + ".html";
      String page = Files.readString(report.resolve(file));
      assertThat(page).contains(each.student());
      assertThat(corpus).contains("href=\"" + file + "\"");
      assertThat(page).contains("href=\"" + file.replace("student-", "lesson-") + "\"");
      Expected.all().stream()
          .filter(solo -> solo.student().equals(each.student()))
          .map(solo -> AS_WRITTEN_OUT.format(LocalDate.parse(solo.date())))
          .forEach(date -> assertThat(page).as(file).contains(date));
    }
    assertThat(SampleStudy.pages())
        .as("a page for corpus and class, three for each student and one for each of their solos")
        .hasSize(2 + 3 * Expected.atFullStrength().size() + Expected.all().size());
  }

  @Test
  void everyLinkLeadsSomewhere() throws IOException {
    Pattern link = Pattern.compile("href=\"([^\"#]*)(?:#([^\"]*))?\"");
    for (Path page : SampleStudy.pages()) {
      String text = Files.readString(page);
      Matcher links = link.matcher(text);
      while (links.find()) {
        if (links.group(1).startsWith("data:")) {
          continue; // a phrase as MIDI, in the page itself
        }
        Path target = links.group(1).isEmpty() ? page : page.resolveSibling(links.group(1));
        assertThat(target).as("%s in %s", links.group(), page).exists();
        if (links.group(2) != null) {
          assertThat(Files.readString(target))
              .as("%s in %s", links.group(), page)
              .contains("id=\"" + links.group(2) + "\"");
        }
      }
    }
  }

  @Test
  void noPageShowsAValueThatIsNone() throws IOException {
    for (Path page : SampleStudy.pages()) {
      assertThat(SampleStudy.withoutScripts(Files.readString(page)))
          .as(page.toString())
          .doesNotContainPattern("\\b(NaN|Infinity|null|undefined)\\b")
          .doesNotContain("Optional[", "phrasecensus.", "{}");
    }
  }

  /** Digits, case rules and dates differ in these; the bytes of tables and report must not. */
  @ParameterizedTest(name = "{0} at {1}")
  @CsvSource({"tr-TR, Pacific/Kiritimati", "ar-EG-u-nu-arab, America/St_Johns"})
  void anotherRunInAnotherPlaceGivesTheSameBytes(String language, String zone) {
    Locale locale = Locale.getDefault();
    Locale display = Locale.getDefault(Locale.Category.DISPLAY);
    Locale format = Locale.getDefault(Locale.Category.FORMAT);
    TimeZone timeZone = TimeZone.getDefault();
    Path again = temporary.resolve("again");
    try {
      Locale.setDefault(Locale.forLanguageTag(language));
      TimeZone.setDefault(TimeZone.getTimeZone(zone));

      CommandRun run = SampleStudy.make(again);

      assertThat(run.out()).contains("Read 75 of 75 files");
    } finally {
      Locale.setDefault(locale);
      Locale.setDefault(Locale.Category.DISPLAY, display);
      Locale.setDefault(Locale.Category.FORMAT, format);
      TimeZone.setDefault(timeZone);
    }
    assertThat(FolderBytes.of(again)).isEqualTo(withoutLock(SampleStudy.folder()));
  }

  @Test
  void aSecondReportHasTheSameBytes() throws IOException {
    Path copy = temporary.resolve("copy");
    try (Stream<Path> paths = Files.walk(SampleStudy.folder())) {
      for (Path path : paths.sorted().toList()) {
        Path to = copy.resolve(SampleStudy.folder().relativize(path));
        if (!path.endsWith(ListedFiles.LOCK)) {
          Files.copy(path, to);
        }
      }
    }
    Files.delete(copy.resolve("report/index.html"));

    CommandRun run = CommandRun.of("report", copy.toString());

    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    assertThat(FolderBytes.of(copy)).isEqualTo(withoutLock(SampleStudy.folder()));
  }

  /** This class holds the study open, so its lock is there. */
  private static Map<String, String> withoutLock(Path study) {
    Map<String, String> bytes = FolderBytes.of(study);
    bytes.remove(ListedFiles.LOCK);
    return bytes;
  }
}
