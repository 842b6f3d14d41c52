package phrasecensus.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import phrasecensus.tables.InputException;
import phrasecensus.tables.StatisticsCatalogue;

class StudyReportTest {
  private static final String HOSTILE =
      "<script>alert(1)</script> \"'& </title></style>--> \u202Egnp.exe\u202C \u0007 ${7*7} {{x}}";

  private static final Map<String, String> USUAL = pages(InventedStudy.usual());

  private static final Map<String, String> SMALL = pages(InventedStudy.small());
  private static final Map<String, String> BARE = pages(InventedStudy.bare());

  private static final String ALL_WORDS =
      List.of(USUAL, SMALL, BARE).stream()
          .flatMap(pages -> pages.values().stream())
          .map(page -> PageCheck.words(page).toLowerCase(Locale.ROOT))
          .collect(Collectors.joining("\n"));

  private static Map<String, String> pages(InventedStudy study) {
    return pages(study, ReportSettings.usual());
  }

  private static Map<String, String> pages(InventedStudy study, ReportSettings settings) {
    return StudyReport.pages(
        study.tables(), study.manifest(), StatisticsCatalogue.builtIn(), settings);
  }

  private static String student(Map<String, String> pages) {
    return pages.entrySet().stream()
        .filter(e -> e.getKey().startsWith("student-"))
        .findFirst()
        .orElseThrow()
        .getValue();
  }

  @Test
  void thereIsOnePageForTheCorpusOneForTheClassThreeForEachStudentAndOneForEachOfTheirSolos() {
    assertThat(USUAL.keySet())
        .startsWith(
            "index.html",
            "class.html",
            "lesson-mara-lindgren.html",
            "mail-mara-lindgren.html",
            "student-mara-lindgren.html",
            "lesson-tobias-achterberg.html")
        .contains("student-mara-lindgren-solo-1.html")
        .endsWith("student-yori-castell-solo-4.html")
        .hasSize(2 + 3 * 3 + 3 * 4);
  }

  @Test
  void theDefinitionsGiveTheKeyUnderWhichTheTablesHaveAStatistic() {
    String words = PageCheck.words(USUAL.get("index.html"));

    for (var definition : StatisticsCatalogue.builtIn().all()) {
      assertThat(words).containsPattern("(?<!\\w)" + definition.key() + "(?!\\w)");
    }
    assertThat(words).contains("a norm is a row of the table norms");
  }

  @Test
  void theCheckerFindsADoubledId() throws Exception {
    assertThat(
            PageCheck.validity(
                "<!DOCTYPE html><html lang=\"en\"><title>x</title><p id=\"a\">b<p"
                    + " id=\"a\">c</html>"))
        .anyMatch(message -> message.contains("Duplicate ID"));
  }

  @Test
  void everyKindOfPageIsValidHtml() throws Exception {
    for (String page :
        List.of(
            "index.html",
            "class.html",
            "lesson-mara-lindgren.html",
            "mail-mara-lindgren.html",
            "student-mara-lindgren.html",
            "student-mara-lindgren-solo-1.html")) {
      assertThat(PageCheck.validity(USUAL.get(page))).as(page).isEmpty();
    }
  }

  @Test
  void pagesOfSmallAndBareStudiesAreValidHtml() throws Exception {
    for (Map<String, String> pages : List.of(SMALL, BARE)) {
      for (Map.Entry<String, String> page : pages.entrySet()) {
        assertThat(PageCheck.validity(page.getValue())).as(page.getKey()).isEmpty();
      }
    }
  }

  @Test
  void theSameStudyGivesTheSameBytes() {
    assertThat(pages(InventedStudy.usual())).isEqualTo(USUAL);
  }

  @Test
  void theDefaultLocaleOfTheMachineChangesNothing() {
    Locale before = Locale.getDefault();
    try {
      Locale.setDefault(Locale.forLanguageTag("ar-EG-u-nu-arab"));

      assertThat(pages(InventedStudy.usual())).isEqualTo(USUAL);
    } finally {
      Locale.setDefault(before);
    }
  }

  @Test
  void nothingIsLoadedFromOutside() {
    for (String page : USUAL.values()) {
      assertThat(
              PageCheck.all(
                  PageCheck.withoutPlayer(page),
                  "(https?:|<script|<img|<link|<iframe|@import| style=| on[a-z]+=)"))
          .isEmpty();
      assertThat(PageCheck.all(page, "Content-Security-Policy\" content=\"([^\"]*)\""))
          .singleElement()
          .asString()
          .startsWith("default-src &#39;none&#39;; style-src &#39;sha256-");
      assertThat(PageCheck.all(page, "(?:href|src)=\"([^\"]*)\""))
          .allMatch(
              link ->
                  link.matches(
                      "#[a-z0-9_-]+|(index|class|(student|lesson|mail)-[a-z0-9-]+)\\.html"
                          + "|data:audio/midi;base64,[A-Za-z0-9+/=]+"));
    }
  }

  @Test
  void everyLinkLeadsToAPlaceThatExists() {
    USUAL.forEach(
        (file, page) -> {
          for (String link : PageCheck.all(page, "href=\"([^\"]*)\"")) {
            if (link.startsWith("#")) {
              assertThat(page).as(file).contains("id=\"" + link.substring(1) + "\"");
            } else if (!link.startsWith("data:")) {
              assertThat(USUAL).containsKey(link);
            }
          }
        });
  }

  @Test
  void everyPictureHasATitleAndADescription() {
    for (String page : USUAL.values()) {
      List<String> pictures = PageCheck.all(page, "<svg class=\"picture\"(.*?)</svg>");
      assertThat(pictures)
          .allMatch(picture -> picture.matches("(?s).*<title id=\"[^\"]+\">[^<]+</title>.*"))
          .allMatch(picture -> picture.matches("(?s).*<desc id=\"[^\"]+\">[^<]+</desc>.*"));
    }
  }

  @Test
  void everySystemOfNotesSaysWhatThereIsToSee() {
    List<String> systems =
        PageCheck.all(
            USUAL.get("student-mara-lindgren-solo-1.html"), "<svg class=\"engraving\"([^>]*)>");

    assertThat(systems).isNotEmpty();
    assertThat(systems)
        .allMatch(
            system -> system.matches("(?s).* aria-label=\"Bars? [^\"]+ engraved: [^\"]+\".*"));
  }

  /** What is said for a reader of fifteen has no n: it counts in plain words. */
  private static List<String> withoutPlainWords(Map<String, String> pages) {
    return pages.entrySet().stream()
        .filter(page -> !page.getKey().matches("(lesson|mail)-.*|class.*"))
        .map(page -> page.getValue().replaceAll("(?s)<section id=\"answers\".*?</section>", ""))
        .toList();
  }

  /** A line of four bars is no figure of a statistic: it shows every note, so it needs no n. */
  @Test
  void everyPictureOfValuesTellsItsN() {
    for (String page : withoutPlainWords(USUAL)) {
      for (String picture : PageCheck.all(page, "(<svg class=\"picture\".*?</svg>)")) {
        if (!picture.contains("<title id=\"line-")) {
          assertThat(PageCheck.words(picture)).containsPattern("n[ \u00a0]\\d");
        }
      }
    }
  }

  @Test
  void everySentenceWithAPercentageTellsWhatItRestsOn() {
    for (String page : withoutPlainWords(USUAL)) {
      for (String paragraph : PageCheck.all(page, "<p>(<bdi>.*?)</p>")) {
        String words = PageCheck.words(paragraph);
        if (words.contains("%") || words.contains("bars")) {
          assertThat(words).containsPattern("n\u00a0\\d|from [\\d,]+\u00a0|\\d\u00a0solos? by");
        }
      }
    }
  }

  @Test
  void everyCardOfAStudentShowsThePlaceAmongTheSolosOfTheCorpus() {
    String page = USUAL.get("student-mara-lindgren.html");

    assertThat(PageCheck.words(page))
        .contains("longer phrases than all 60 solos in this corpus at this tempo")
        .contains("Does the line sit in the harmony?")
        .contains("Does it move?")
        .contains("Does it breathe in phrases?");
  }

  @Test
  void theCorpusPageTellsHowAnotherPhraseRuleMovesTheNorms() {
    String words = PageCheck.words(USUAL.get("index.html"));

    assertThat(words)
        .contains(
            "All norms on this page take the phrases as the rule silence ends them"
                + " (n\u00a060\u00a0solos")
        .containsPattern(
            "Under breath the median of 1 norm of \\d+ moves by a quarter of its usual spread or"
                + " more: phrase length in bars\\.")
        .contains("+0.50\u00a0bars (+0.75)")
        .contains("60 of 60, by 0.50\u00a0bars");
  }

  @Test
  void aStudyOfOnePhraseRuleSaysHowToAskForOthers() {
    assertThat(PageCheck.words(SMALL.get("index.html")))
        .contains("run the study with --sensitivity and the names of other rules")
        .doesNotContain("Under breath");
  }

  @Test
  void aStudentIsHeldAgainstTheGroupThatTheStudyNamesAndThePageSaysWhy() {
    String page = pages(InventedStudy.besideStyle()).get("student-mara-lindgren.html");
    String words = PageCheck.words(page);

    assertThat(words)
        .containsPattern(
            "beside 36\u00a0solos of the corpus by 8\u00a0players \\(the group “style: quayside"
                + " swing”\\)")
        .contains("Why this group: the study names style; likeness plays no part.")
        .contains("1 corpus solo is the same file as one of this student's")
        .contains("than is usual in this group.")
        .contains("Columns: the group, n ")
        .doesNotContain("of 60 solos in this")
        .doesNotContain("Moved toward");
    assertThat(words).contains("whole corpus", "Average of the group");
    assertThat(PageCheck.words(USUAL.get("student-mara-lindgren.html")))
        .contains("beside 60\u00a0solos of the corpus by 8\u00a0players.")
        .doesNotContain("Why this group")
        .doesNotContain("same file");
  }

  @Test
  void aMixOfNoteValuesTellsItsDistanceFromTheAverageAndWhatMakesIt() {
    assertThat(PageCheck.words(USUAL.get("student-mara-lindgren.html")))
        .contains(
            "the student's solos lie 0.25 away from the average of the corpus"
                + " (n\u00a060\u00a0solos)")
        .contains("typically 0.10 from the average of the others.")
        .contains("eighth notes (60\u00a0% here, 40\u00a0% there) and ")
        .contains("Distance from the average of the corpus (0 to 1)");
  }

  @Test
  void aFileInBothRolesIsNamedAndWithPseudonymsOnlyItsPlaceAmongTheSolos() {
    assertThat(PageCheck.words(USUAL.get("index.html")))
        .contains("Some corpus files are a student's too.")
        .containsPattern("quayside-swing-05.musicxml\\s+mara-lindgren/take-3.musicxml");
    String coded =
        PageCheck.words(
            pages(InventedStudy.usual(), ReportSettings.usual().withPseudonyms())
                .get("index.html"));
    assertThat(coded)
        .containsPattern("a corpus file\\s+Student 1, solo 3")
        .doesNotContain("quayside-swing-05.musicxml");
    assertThat(PageCheck.words(SMALL.get("index.html"))).doesNotContain("a student's too");
  }

  @Test
  void headlineNormsHaveExamplesOfTheCorpusAndOfEachGroupWithAMiddleHalf() {
    String page = USUAL.get("index.html");

    assertThat(PageCheck.words(page)).contains("Phrases near the median of each group");
    assertThat(PageCheck.all(page, "<h5><bdi>([^<]*)</bdi></h5>"))
        .contains("style: quayside swing", "instrument: clarinet");
    assertThat(PageCheck.all(SMALL.get("index.html"), "(<h5>)")).isEmpty();
  }

  /** The invented student who rambles has long phrases and little space, and gets nearer. */
  @Test
  void thePageOfTheRamblingStudentSaysSoAndThatItChanged() {
    String words = PageCheck.words(USUAL.get("student-mara-lindgren.html"));

    assertThat(words)
        .contains("Longer phrases, and more sound and less space than is usual in this corpus.")
        .containsPattern(
            "Moved toward the middle half of the corpus: from [\\d.]+ to [\\d.]+\u00a0bars");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "too long",
        "too short",
        "too many",
        "bad",
        "wrong",
        "poor",
        "should",
        "weak",
        "mistake",
        "better",
        "worse",
        "correct",
        "good",
        "grade of",
        "score of",
        "play more",
        "must improve"
      })
  void noPageJudges(String word) {
    Pattern judging = Pattern.compile("\\b" + word + "\\b");

    assertThat(judging.matcher(ALL_WORDS).results().map(m -> around(m.start())).toList()).isEmpty();
  }

  private static String around(int place) {
    return ALL_WORDS.substring(Math.max(0, place - 40), Math.min(ALL_WORDS.length(), place + 40));
  }

  @Test
  void noPageShowsAValueThatIsNone() {
    for (Map<String, String> pages : List.of(USUAL, SMALL, BARE)) {
      assertThat(PageCheck.all(PageCheck.together(pages), "(NaN|Infinity|>null<|\ufffd|\u221e)"))
          .isEmpty();
    }
  }

  @Test
  void aGroupOfOneSoloListsItsValueAndGivesNoNorm() {
    String words = PageCheck.words(SMALL.get("index.html"));

    assertThat(words)
        .contains("style: lone style")
        .contains("1\u00a0solo by 1\u00a0player: too few solos for a norm. The value is ")
        .contains("All of them are by Solitary: read it as that player's.");
  }

  @Test
  void aGroupBelowElevenSolosGivesItsMedianOnly() {
    String words = PageCheck.words(SMALL.get("index.html"));

    assertThat(words)
        .contains("The median of 9\u00a0solos by 3\u00a0players is ")
        .contains("they are too few for a middle half");
  }

  @Test
  void aStudentWithOneSoloWithoutADateHasAPage() {
    String words = PageCheck.words(student(SMALL));

    assertThat(words)
        .contains("1\u00a0solo with ")
        .contains("Movement over time needs at least three dated solos; this student has 0.")
        .contains("The corpus has too few solos for a norm, so only the values are shown.");
  }

  @Test
  void theOnlySoloOfAStudentStandsForItself() {
    String page = pages(InventedStudy.ofOneSolo()).get("student-solo-student.html");

    assertThat(PageCheck.words(page))
        .contains("1\u00a0solo with ")
        .contains("longer phrases than all 60 solos in this corpus at this tempo")
        .doesNotContain("This study has no value to answer it with.")
        .doesNotContain("Nothing that was compared lies outside");
  }

  /** One solo is too little for a test: what lies outside is listed, not drawn. */
  @Test
  void whatMayBeChanceIsSaidOnceAndNotDrawn() {
    String page = pages(InventedStudy.ofOneSolo()).get("student-solo-student.html");

    assertThat(PageCheck.words(page))
        .containsOnlyOnce("Nothing stands apart from the corpus clearly.");
    assertThat(PageCheck.all(page, "id=\"(departure-[0-9]+)\"")).isEmpty();
    assertThat(PageCheck.all(page, "<th scope=\"row\"><bdi>(More notes per phrase)")).hasSize(1);
  }

  @Test
  void aSoloWithoutNotesIsSaidToHaveNoneAndNoValue() {
    assertThat(PageCheck.words(student(BARE))).contains("no value (n\u00a00)");
    assertThat(PageCheck.words(BARE.get("student-a-solo-2.html")))
        .contains("This solo has no notes to draw.");
  }

  @Test
  void hostileTextIsShownAsText() throws Exception {
    Map<String, String> pages = pages(InventedStudy.saying(HOSTILE));

    for (Map.Entry<String, String> page : pages.entrySet()) {
      assertThat(page.getKey()).matches("(index|class|(student|lesson|mail)-[a-z0-9-]+)\\.html");
      assertThat(PageCheck.withoutPlayer(page.getValue()))
          .doesNotContain("<script")
          .doesNotContain("\u0007");
      assertThat(PageCheck.all(page.getValue(), "(</style>)")).hasSize(1);
      assertThat(PageCheck.words(page.getValue())).contains("<script>alert(1)</script>");
      assertThat(PageCheck.validity(page.getValue())).as(page.getKey()).isEmpty();
    }
  }

  @Test
  void textThatTurnsTheDirectionStaysInsideAnIsolatedElement() {
    Map<String, String> pages = pages(InventedStudy.saying(HOSTILE));

    for (String page : pages.values()) {
      String outside =
          page.replaceAll("(?s)<bdi>[^<]*</bdi>", "").replaceAll("(?s)aria-label=\"[^\"]*\"", "");
      assertThat(outside).doesNotContain("\u202E");
      assertThat(page).contains("<bdi>").contains("\u202Egnp.exe");
    }
  }

  @Test
  void aNameThatIsAPathGivesAPlainFileName() {
    Map<String, String> pages = pages(InventedStudy.saying("../../etc/passwd"));

    assertThat(pages.keySet())
        .containsExactly(
            "index.html",
            "class.html",
            "lesson-etc-passwd.html",
            "mail-etc-passwd.html",
            "student-etc-passwd.html",
            "student-etc-passwd-solo-1.html");
  }

  @Test
  void pseudonymsKeepNamesTitlesAndPathsOut() {
    Map<String, String> pages =
        pages(InventedStudy.usual(), ReportSettings.usual().withPseudonyms());

    assertThat(pages.keySet())
        .contains("student-1.html", "student-2.html", "student-3.html", "student-3-solo-4.html")
        .allMatch(
            file ->
                file.matches(
                    "(index|class|(lesson|mail)-[123]|student-[123](-solo-[1234])?)\\.html"));
    assertThat(PageCheck.together(pages))
        .doesNotContainIgnoringCase("mara")
        .doesNotContainIgnoringCase("lindgren")
        .doesNotContainIgnoringCase("tobias")
        .doesNotContain("Low Tide")
        .contains("Student 2");
  }

  @Test
  void withoutExcerptsNoNoteIsDrawn() {
    Map<String, String> pages =
        pages(InventedStudy.usual(), ReportSettings.usual().withoutExcerpts());

    assertThat(USUAL.get("student-mara-lindgren-solo-1.html")).contains("class=\"tone core\"");
    assertThat(PageCheck.together(pages))
        .doesNotContain("class=\"tone")
        .doesNotContain("class=\"engraving\"", "<script", "script-src", "audio/midi")
        .contains("Notes are left out of this report.");
  }

  @Test
  void numbersAndDatesFollowTheLocaleOnEveryPage() {
    Map<String, String> pages =
        pages(InventedStudy.usual(), ReportSettings.usual().withLocale(Locale.GERMAN));

    assertThat(PageCheck.words(student(pages)))
        .containsPattern("\\d,\\d\\d\u00a0bars")
        .containsPattern("\\d\\d\\.0[1-4]\\.2026")
        .doesNotContainPattern("\\d (Jan|Feb|Mar|Apr) 2026");
    pages.forEach(
        (file, page) ->
            assertThat(PageCheck.words(page))
                .as(file)
                .doesNotContainPattern("\\d\\.\\d+\u00a0(bars|%|notes|semitones|beats|bits)")
                .doesNotContainPattern("\\d,\\d\\d\\d\u00a0(notes|phrases|bars)"));
  }

  @Test
  void thePageOfFiveThousandSolosIsSmallAndNoCorpusSoloHasAPage() {
    Map<String, String> pages = pages(InventedStudy.large());

    assertThat(PageCheck.words(pages.get("index.html"))).contains("5,040\u00a0corpus solos");
    assertThat(bytes(pages.get("index.html"))).isLessThan(3_000_000);
    assertThat(pages).hasSize(2 + 3 * 3 + 3 * 4);
  }

  @Test
  void thePagesOfAFiveMinuteSoloAreSmall() {
    Map<String, String> pages = pages(InventedStudy.ofLongSolos());

    assertThat(PageCheck.words(pages.get("student-lena-solo-1.html")))
        .contains("\u00a0bars \u00b7 1,317\u00a0notes");
    assertThat(bytes(pages.get("student-lena.html"))).isLessThan(1_000_000);
    assertThat(bytes(pages.get("student-lena-solo-1.html"))).isLessThan(1_000_000);
  }

  private static int bytes(String page) {
    return page.getBytes(StandardCharsets.UTF_8).length;
  }

  @Test
  void pagesStaySmall() {
    assertThat(USUAL.get("index.html").length()).isLessThan(600_000);
    assertThat(USUAL.get("student-mara-lindgren.html").length()).isLessThan(700_000);
  }

  @Test
  void aLaterReportTakesAwayThePagesOfStudentsWhoLeft(@TempDir Path folder) throws Exception {
    write(InventedStudy.usual(), folder);
    Files.writeString(folder.resolve("student-of-mine.html"), "<p>my own notes</p>");
    write(InventedStudy.small(), folder);

    try (var files = Files.list(folder)) {
      assertThat(files.map(file -> file.getFileName().toString()).sorted())
          .containsExactly(
              "class.html",
              "index.html",
              "lesson-only.html",
              "mail-only.html",
              "student-of-mine.html",
              "student-only-solo-1.html",
              "student-only.html");
    }
  }

  /** Names of students stand in no sound, so that a pseudonym is one. */
  @Test
  void soundsOfAPseudonymNameNobody() {
    Map<String, String> pages =
        pages(InventedStudy.usual(), ReportSettings.usual().withPseudonyms());
    List<String> sounds =
        PageCheck.all(PageCheck.together(pages), "data:audio/midi;base64,([^\"]*)\"").stream()
            .map(text -> new String(Base64.getDecoder().decode(text), StandardCharsets.ISO_8859_1))
            .toList();

    assertThat(sounds).hasSizeGreaterThan(50).allMatch(midi -> midi.startsWith("MThd"));
    assertThat(String.join(" ", sounds).toLowerCase(Locale.ROOT))
        .doesNotContain("lindgren", "mara", "achterberg", "castell");
    assertThat(String.join(" ", PageCheck.all(PageCheck.together(pages), "download=\"([^\"]*)\"")))
        .doesNotContain("lindgren", "mara", "achterberg", "castell");
  }

  @Test
  void aFolderThatCannotBeWrittenIsSaid(@TempDir Path folder) throws Exception {
    Path file = Files.writeString(folder.resolve("taken"), "");

    assertThatThrownBy(() -> write(InventedStudy.small(), file))
        .isInstanceOf(InputException.class)
        .hasMessageStartingWith("Cannot write the report to ")
        .hasMessageEndingWith("Choose a folder that can be written.");
  }

  private static void write(InventedStudy study, Path folder) {
    StudyReport.write(
        study.tables(),
        study.manifest(),
        StatisticsCatalogue.builtIn(),
        ReportSettings.usual(),
        folder);
  }
}
