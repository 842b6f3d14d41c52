package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;

/**
 * A study in which nearly everything is unusual: twelve copies of one solo as a group, a group of
 * one solo, half the other solos without chords, a student solo that is in the corpus too, another
 * of four notes, no dates, and numbers that are none.
 */
class UnusualStudyIT {
  private static final String FOUR_NOTES =
      """
      <score-partwise version="4.0">
        <work><work-title>Umbrella Cadenza</work-title></work>
        <identification><creator type="composer">Perpetua Snodgrass</creator></identification>
        <part-list><score-part id="P1"><part-name>Horn</part-name></score-part></part-list>
        <part id="P1"><measure number="1">
          <attributes><divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time>
          </attributes>
          <note><pitch><step>C</step><octave>4</octave></pitch><duration>1</duration></note>
          <note><pitch><step>D</step><octave>4</octave></pitch><duration>1</duration></note>
          <note><pitch><step>E</step><octave>4</octave></pitch><duration>1</duration></note>
          <note><pitch><step>G</step><octave>4</octave></pitch><duration>1</duration></note>
        </measure></part>
      </score-partwise>
      """;

  @TempDir private static Path temporary;
  private static CommandRun run;
  private static StudyFolder folder;

  @BeforeAll
  static void study() throws IOException {
    Path corpus = Files.createDirectory(temporary.resolve("corpus"));
    StringBuilder metadata = new StringBuilder("file,performer,style,year,words\n");
    for (int i = 0; i < 12; i++) {
      String name = String.format("echo-%02d.musicxml", i);
      Files.copy(SampleCorpus.A_SOLO, corpus.resolve(name));
      metadata.append(name).append(",echo player ").append(i % 4).append(",echo,1950,loud\n");
    }
    List<Path> others;
    try (Stream<Path> files = Files.list(SampleCorpus.FOLDER.resolve("corpus"))) {
      others =
          files
              .filter(file -> file.toString().endsWith(".musicxml"))
              .filter(file -> !file.equals(SampleCorpus.A_SOLO))
              .sorted()
              .limit(15)
              .toList();
    }
    for (int i = 0; i < others.size(); i++) {
      String name = String.format("other-%02d.musicxml", i);
      String score = Files.readString(others.get(i));
      Files.writeString(
          corpus.resolve(name),
          i % 2 == 1 ? score.replaceAll("(?s)<harmony.*?</harmony>", "") : score);
      metadata
          .append(name)
          .append(i == 0 ? ",a loner,alone," : ",player " + i % 5 + ",mixed,")
          .append(i == 1 ? "" : i < 4 ? "ca. 1950" : i < 8 ? "1935" : "2001")
          .append(",soft\n");
    }
    Files.writeString(corpus.resolve("solos.csv"), metadata);
    Path ada = Files.createDirectories(temporary.resolve("students/ada"));
    Files.copy(corpus.resolve("other-02.musicxml"), ada.resolve("own.musicxml"));
    Path hester = SampleCorpus.FOLDER.resolve("students/hester-loom");
    Files.copy(
        hester.resolve("2025-10-04-tarpaulin-blues.musicxml"), ada.resolve("first.musicxml"));
    Files.copy(
        hester.resolve("2026-01-10-pontoon-holiday.musicxml"), ada.resolve("second.musicxml"));
    Files.writeString(
        Files.createDirectories(temporary.resolve("students/bo")).resolve("four.musicxml"),
        FOUR_NOTES);
    Files.writeString(
        temporary.resolve("students/solos.csv"),
        """
        file,style
        ada/own.musicxml,mixed
        ada/first.musicxml,echo
        ada/second.musicxml,alone
        bo/four.musicxml,echo
        """);
    Path file =
        Files.writeString(
            temporary.resolve("study.yaml"),
            """
            corpus: corpus
            students: students
            by: [style, {year: [1900, 1940, 1960, 1990]}, [style, {tempo_qpm: [0, 140, 400]}]]
            """);
    run = CommandRun.of("study", file.toString(), "--into", temporary.resolve("study").toString());
    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    folder =
        StudyFolder.finished(temporary.resolve("study").toString(), StudyFolder.configuration());
  }

  @AfterAll
  static void close() {
    if (folder != null) {
      folder.close();
    }
  }

  private static List<TableRow> rows(String table, String... columnsAndTexts) {
    Map<String, String> equal = new TreeMap<>();
    for (int i = 0; i < columnsAndTexts.length; i += 2) {
      equal.put(columnsAndTexts[i], columnsAndTexts[i + 1]);
    }
    return folder.source().rows(table, equal);
  }

  @Test
  void bandsWithoutSolosAndSolosWithoutANumberAreSaid() {
    assertThat(run.complaints())
        .contains(
            "No corpus solo lies in the band 1960 to 1990 of 'year'.",
            "3 of 27 corpus solos have no number but something else in 'year' and lie in no band;"
                + " their group is (no number).",
            "7 of 27 corpus solos lie outside the bands of 'year'; their group is (outside the"
                + " bands).");
    assertThat(rows("norms", "group_by", "year", "statistic", "phrase_notes"))
        .extracting(row -> row.text("group_value") + ": " + row.integer("n"))
        .containsExactlyInAnyOrder(
            "1900 to below 1940: 4",
            "1940 to below 1960: 12",
            "(no number): 3",
            "(none): 1",
            "(outside the bands): 7");
  }

  @Test
  void aFileInCorpusAndStudentsIsNamedAndLeftOutForThatStudentAlone() {
    assertThat(run.complaints())
        .contains(
            "The student's file ada/own.musicxml is also in the corpus, as other-02.musicxml. The"
                + " student is compared with the corpus without it; the norms keep it. Remove one"
                + " of the two.");
    assertThat(rows("norms", "group_by", "all", "statistic", "phrase_notes"))
        .extracting(row -> row.integer("n"))
        .containsExactly(27);
    assertThat(rows("departures", "group_by", "all", "statistic", "phrase_notes"))
        .hasSize(5)
        .allSatisfy(
            row -> {
              boolean ada = row.text("student").equals("ada");
              assertThat(row.integer("norm_n")).isEqualTo(ada ? 26 : 27);
              assertThat(row.integer("left_out")).isEqualTo(ada ? 1 : 0);
            });
    assertThat(rows("neighbours", "student", "ada"))
        .isNotEmpty()
        .noneMatch(row -> row.text("neighbour_id").equals("corpus/other-02.musicxml"));
    assertThat(rows("exemplars", "student", "ada"))
        .isNotEmpty()
        .noneMatch(row -> row.text("phrase_solo_id").equals("corpus/other-02.musicxml"));
    assertThat(rows("mixtures", "student", "ada", "group_by", "all", "mix", "intervals"))
        .isNotEmpty()
        .allMatch(row -> row.integer("solos") == 26);
  }

  @Test
  void aGroupOfOneSoloIsListedAndNothingIsComparedWithIt() {
    assertThat(rows("norms", "group_by", "style", "group_value", "alone"))
        .isNotEmpty()
        .allSatisfy(
            row -> {
              assertThat(row.integer("n")).isLessThanOrEqualTo(1);
              assertThat(row.text("shown")).isEqualTo("list");
            });
    assertThat(rows("departures", "group_by", "style", "group_value", "alone"))
        .isNotEmpty()
        .allMatch(
            row -> List.of("no-norm", "described", "too-little").contains(row.text("verdict")))
        .allMatch(row -> row.isMissing("p_value") && !row.flag("reference"));
  }

  @Test
  void whereAllValuesAreEqualOtherGroupsSayHowMuchSolosVaryOrNothingIsTold() {
    assertThat(rows("departures", "group_by", "style", "group_value", "echo"))
        .isNotEmpty()
        .allSatisfy(
            row -> {
              if (row.isMissing("p_value")) {
                assertThat(row.text("verdict")).isIn("constant", "too-little", "no-norm");
              } else {
                assertThat(row.number("interval_low"))
                    .isLessThanOrEqualTo(row.number("interval_high"));
              }
            });
  }

  @Test
  void aStatisticWithoutValueInHalfTheSolosSaysSo() {
    TableRow row = rows("norms", "group_by", "all", "statistic", "landing_chord_tone_share").get(0);

    assertThat(row.integer("n")).isEqualTo(20);
    assertThat(row.integer("undefined")).isEqualTo(7);
  }

  @Test
  void fourNotesAreTooLittleForEveryVerdict() {
    assertThat(rows("departures", "student", "bo"))
        .isNotEmpty()
        .allMatch(row -> row.text("verdict").equals("too-little") && row.isMissing("p_value"));
    assertThat(rows("exemplars", "student", "bo")).isEmpty();
    assertThat(rows("mixtures", "student", "bo")).isEmpty();
  }

  /** Both in one test: the second report takes the place of the first. */
  @Test
  void pagesSayWhatIsUndefinedInWordsAndWithPseudonymsNothingOfAStudentIsLeft() throws IOException {
    Map<String, String> pages = pages();
    assertThat(String.join("\n", pages.values()))
        .doesNotContainPattern("NaN|Infinity|>null<|\u221e")
        .contains("Umbrella Cadenza");
    assertThat(pages.get("student-bo.html"))
        .contains("There is too little music here to say more.")
        .contains("No phrase ends over a known chord.")
        .contains("No form could be told from these solos.")
        .contains("Nothing stands apart clearly enough to make a suggestion from it.")
        .contains("this student has 0")
        .doesNotContain("This study has no value to answer it with.");
    assertThat(pages.get("student-ada.html")).contains("1 corpus solo is the same file");
    assertThat(pages.get("index.html"))
        .contains("1\u00a0solo by 1\u00a0player: too few solos for a norm. The value is ");

    CommandRun coded =
        CommandRun.of(
            "report", temporary.resolve("study").toString(), "--pseudonyms", "--no-excerpts");

    assertThat(coded.exitCode()).as(coded.err()).isEqualTo(ExitCode.DONE);
    Map<String, String> codedPages = pages();
    assertThat(codedPages.keySet())
        .contains("student-1.html", "student-2-solo-1.html")
        .allMatch(
            name ->
                name.matches(
                    "(index|class|(lesson|mail)-[12]|student-[12](-solo-[1-3])?)\\.html|files\\.sha256"));
    codedPages.forEach(
        (name, page) ->
            assertThat(page + decoded(page))
                .as(name)
                .doesNotContainPattern("(?i)\\b(ada|bo)\\b")
                .doesNotContain("Umbrella", "Snodgrass", "four.musicxml", "own.musicxml")
                .doesNotContain("other-02.musicxml")
                .doesNotContain("class=\"engraving\"", "class=\"tone", "audio/midi"));
    // The other tests read the usual pages.
    CommandRun.of("report", temporary.resolve("study").toString());
  }

  /** What the sounds of a page say when they are unpacked. */
  private static String decoded(String page) {
    StringBuilder text = new StringBuilder();
    Matcher sound = Pattern.compile("base64,([A-Za-z0-9+/=]+)").matcher(page);
    while (sound.find()) {
      text.append(
          new String(Base64.getDecoder().decode(sound.group(1)), StandardCharsets.ISO_8859_1));
    }
    return text.toString();
  }

  private static Map<String, String> pages() throws IOException {
    Map<String, String> pages = new TreeMap<>();
    try (Stream<Path> files = Files.list(temporary.resolve("study/report"))) {
      for (Path file : files.toList()) {
        pages.put(file.getFileName().toString(), Files.readString(file));
      }
    }
    return pages;
  }

  @Test
  void withoutDatesThereIsNoTrend() {
    assertThat(rows("trends"))
        .isNotEmpty()
        .allMatch(row -> row.text("movement").equals("too-few-dates"));
  }

  @Test
  void theGroupOfReferenceIsThatOfTheFirstColumnWhereItHasEnoughSolosAndSaysWhy() {
    assertThat(reference("student/ada/first.musicxml")).isEqualTo("style | echo | first-column");
    assertThat(reference("student/ada/second.musicxml")).isEqualTo("all | all | group-too-small");
  }

  private static String reference(String soloId) {
    TableRow row =
        rows("departures", "solo_id", soloId, "statistic", "phrase_notes").stream()
            .filter(each -> each.flag("reference"))
            .findFirst()
            .orElseThrow();
    return row.text("group_by")
        + " | "
        + row.text("group_value")
        + " | "
        + row.text("reference_reason");
  }

  /** What a page says, in one line. */
  private static String text(String page) throws IOException {
    return SampleStudy.withoutScripts(
            Files.readString(temporary.resolve("study/report").resolve(page)))
        .replaceAll("(?s)<(style|svg).*?</\\1>", "")
        .replaceAll("<[^>]+>", " ")
        .replace("&nbsp;", " ")
        .replaceAll("[\\s\u00a0]+", " ");
  }

  @Test
  void pagesSayInWordsWhatCannotBeTold() throws IOException {
    assertThat(text("index.html"))
        .contains(
            "1 solo by 1 player: too few solos for a norm. The value is ",
            "read it as that player's.",
            "All these solos have the same value: how far another lies from it cannot be told.",
            "No solo of this group has a value (n 0).")
        .doesNotContainPattern("1 solo by 1 player: too few solos for a norm. The values lie");
    assertThat(text("student-bo.html")).contains("too little music in these", "this student has 0");
    assertThat(text("student-ada.html"))
        .contains("Movement over time needs at least three dated solos; this student has 0.");
  }

  @Test
  void noTableHoldsANumberThatIsNone() {
    List<String> tables = new ArrayList<>(TableSchemas.OF_READING);
    tables.addAll(TableSchemas.OF_STUDY);
    for (String table : tables) {
      for (TableRow row : folder.source().rows(table)) {
        for (int i = 0; i < row.schema().columns().size(); i++) {
          if (row.value(i) instanceof Double number) {
            assertThat(number).as("%s: %s", table, row).isFinite();
          } else if (row.value(i) instanceof String text) {
            assertThat(text)
                .as("%s: %s", table, row)
                .doesNotContainPattern("\\b(NaN|null|Infinity)\\b");
          }
        }
      }
    }
  }

  @Test
  void noPageShowsWhatIsNoNumber() throws IOException {
    try (Stream<Path> pages = Files.walk(temporary.resolve("study/report"))) {
      List<Path> html = pages.filter(page -> page.toString().endsWith(".html")).toList();
      assertThat(html).hasSizeGreaterThanOrEqualTo(3);
      for (Path page : html) {
        assertThat(SampleStudy.withoutScripts(Files.readString(page)))
            .as(page.toString())
            .doesNotContainPattern("\\bNaN\\b|Infinity|\\bnull\\b");
      }
    }
  }

  @Test
  void groupingsThatCannotBeAreRefusedAndLeaveTheStudyAsItWas() {
    String study = temporary.resolve("study").toString();
    String before = folder.manifest().json();

    assertThat(CommandRun.of("norms", study, "--by", "words in 1 2").complaints())
        .contains(
            "Cannot group by bands of 'words': none of the 27 corpus solos has a number there."
                + " Group by the column itself, or fill it with numbers such as 120 or 1956.");
    assertThat(CommandRun.of("norms", study, "--by", "tempo_qpm").complaints())
        .singleElement()
        .asString()
        .startsWith("Cannot group by 'tempo_qpm': it holds numbers");
    assertThat(CommandRun.of("norms", study, "--by", "year in 1990 1940").complaints())
        .containsExactly(
            "Cannot group by bands of 'year': the edges 1990 and 1940 are not in ascending order.");
    assertThat(folder.manifest().json()).isEqualTo(before);
  }
}
