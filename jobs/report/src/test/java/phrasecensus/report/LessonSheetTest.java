package phrasecensus.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import phrasecensus.report.wording.ReadingGrade;
import phrasecensus.report.wording.Task;
import phrasecensus.report.wording.Text;
import phrasecensus.tables.StatisticsCatalogue;

/** What a lesson sheet says, to whom, and how much of it. */
class LessonSheetTest {
  private static final int MOST_WORDS = 250;
  private static final double HIGHEST_GRADE = 6;

  /** What a reader of fifteen does not have to know. */
  private static final Pattern STATISTICS =
      Pattern.compile(
          "(?i)\\b(corpus|median|middle half|chance|norm|percentile|statistics?|significant|"
              + "distribution|entropy|density|chromaticism|average|quartile|n\u00a0\\d+)\\b|%");

  private static final Map<String, Double> GOOD =
      Map.of(
          "in_key_share", 0.96,
          "other_scale_excess", -0.05,
          "resting_chord_tone_share", 0.8,
          "eighth_or_shorter_share", 0.8,
          "unbroken_time_share", 0.1,
          "scrap_time_share", 0.1);

  /** The value that makes a solo answer with a finding. */
  private static Map<String, Double> answering(String finding) {
    return switch (finding) {
      case "outside_key" -> with("in_key_share", 0.55);
      case "weak_landings" -> with("resting_chord_tone_share", 0.2);
      case "long_notes" -> with("eighth_or_shorter_share", 0.2);
      case "no_breath" -> with("unbroken_time_share", 0.9);
      case "fragments" -> with("scrap_time_share", 0.9);
      default -> GOOD;
    };
  }

  private static Map<String, Double> with(String statistic, double value) {
    Map<String, Double> values = new java.util.TreeMap<>(GOOD);
    values.put(statistic, value);
    return values;
  }

  private static Map<String, String> pages(
      String finding, Map<String, String> metadata, boolean corpus, ReportSettings settings) {
    InventedStudy study = InventedStudy.lessons(answering(finding), metadata, corpus);
    return StudyReport.pages(
        study.tables(), study.manifest(), StatisticsCatalogue.builtIn(), settings);
  }

  private static String sheet(String finding, String level) {
    return pages(finding, Map.of("level", level), true, ReportSettings.usual())
        .get("lesson-orla-finch.html");
  }

  static Stream<String> kinds() {
    List<String> kinds = new ArrayList<>();
    for (String finding :
        List.of("outside_key", "weak_landings", "long_notes", "no_breath", "fragments", "none")) {
      for (String level : List.of("1", "2", "3")) {
        kinds.add(finding + "." + level);
      }
    }
    return kinds.stream();
  }

  @ParameterizedTest
  @MethodSource("kinds")
  void aSheetIsShortEasyToReadAndFreeOfStatistics(String kind) {
    String[] both = kind.split("\\.");
    String page = sheet(both[0], both[1]);
    String said = PageCheck.said(page);

    assertThat(ReadingGrade.words(said)).as(said).hasSizeLessThanOrEqualTo(MOST_WORDS);
    assertThat(ReadingGrade.of(said)).as(said).isLessThanOrEqualTo(HIGHEST_GRADE);
    assertThat(STATISTICS.matcher(PageCheck.words(page)).results().map(m -> m.group()).toList())
        .isEmpty();
  }

  /** The third solo takes the third task: the two before it had the others. */
  @ParameterizedTest
  @MethodSource("kinds")
  void theTaskBelongsToTheFindingAndIsNotLastLessons(String kind) {
    String[] both = kind.split("\\.");
    String page = sheet(both[0], both[1]);
    List<Task> tasks = Task.all(both[0], Integer.parseInt(both[1]));

    assertThat(page).contains("<h3>" + tasks.get(2).title() + "</h3>");
    assertThat(PageCheck.words(page)).contains("\u201c" + tasks.get(1).title() + "\u201d");
  }

  @ParameterizedTest
  @CsvSource({
    "outside_key, Not yet. 6 of 10 notes are in the key or the chord. The others have a ring.",
    "weak_landings, stops are on 1",
    "long_notes, Not yet. 2 of 10 notes are eighths or shorter. The others are longer.",
    "no_breath, Not yet. The line goes on for",
    "fragments, shorter than a bar.",
    "none, Yes. Nearly all notes are in the key or the chord."
  })
  void eachFindingHasItsSentence(String finding, String sentence) {
    assertThat(PageCheck.said(sheet(finding, "1"))).contains(sentence);
  }

  /** Whatever is said on one sheet: the longest of each kind together. */
  @Test
  void evenTheLongestOfEverySentenceFitsOnOneSheet() {
    int task =
        kinds()
            .map(kind -> kind.split("\\."))
            .flatMap(kind -> Task.all(kind[0], Integer.parseInt(kind[1])).stream())
            .mapToInt(each -> words(each.play()) + words(each.time()) + words(each.sign()))
            .max()
            .orElseThrow();
    int fixed =
        Stream.of("lesson.care", "lesson.legend", "lesson.passages", "lesson.no-chords")
            .mapToInt(key -> words(Text.of(key)))
            .sum();
    int home = longest("lesson\\.key\\..*") + longest("lesson\\.example\\.(?!theirs|yours|home).*");
    int answers =
        longest("lesson\\.told\\.in_key.*")
            + longest("lesson\\.(told\\.resting.*|untold\\..*)")
            + longest("lesson\\.told\\.eighth.*")
            + longest("lesson\\.phrases\\..*")
            // What stands in the braces: nearly all notes are in the key or the chord; some of your
            // stops; nine of ten notes are eighths; two and a half.
            + 7
            + 2
            + 6
            + 3;
    int told = longest("lesson\\.good\\..*") + longest("lesson\\.last\\..*") + 6;
    int change = words(Text.of("lesson.change.share")) + longest("lesson\\.change\\..*\\.up");

    assertThat(task + fixed + home + answers + told + change).isLessThanOrEqualTo(MOST_WORDS);
  }

  private static int words(String text) {
    return ReadingGrade.words(text).size();
  }

  private static int longest(String keys) {
    return Text.keys().stream()
        .filter(key -> key.matches(keys))
        .mapToInt(key -> words(Text.of(key)))
        .max()
        .orElseThrow();
  }

  @Test
  void theThreeQuestionsStand() {
    assertThat(PageCheck.words(sheet("none", "1")))
        .contains(
            "Does the line sit in the harmony?", "Does it move?", "Does it breathe in phrases?");
  }

  @Test
  void lastLessonsTaskIsHeldAgainstThisSolo() {
    assertThat(PageCheck.said(sheet("outside_key", "1")))
        .contains("This solo does not show it yet.");
  }

  @ParameterizedTest
  @MethodSource("kinds")
  void theSheetToMailStandsAlone(String kind) throws Exception {
    String[] both = kind.split("\\.");
    Map<String, String> pages =
        pages(both[0], Map.of("level", both[1]), true, ReportSettings.usual());
    String page = pages.get("mail-orla-finch.html");

    assertThat(PageCheck.all(page, "<a [^>]*href=\"([^\"]*)\"")).containsExactly("#content");
    assertThat(PageCheck.words(page))
        .doesNotContain("Casimir", "Wold", "Thursday evening")
        .contains("Orla Finch");
    if (both[1].equals("1")) {
      assertThat(PageCheck.validity(page)).isEmpty();
    }
  }

  @Test
  void noPageOfAStudentNamesOrLinksAnotherOrTheClass() {
    pages("none", Map.of(), true, ReportSettings.usual())
        .forEach(
            (file, page) -> {
              if (file.contains("orla")) {
                assertThat(page).as(file).doesNotContainIgnoringCase("casimir");
                assertThat(page).as(file).doesNotContain("class.html", "index.html");
              }
            });
  }

  @Test
  void theTeachersOwnSentenceAndChoiceStandOnTheSheet() {
    Map<String, String> pages =
        pages(
            "none",
            Map.of("teacher_note", "Bring the long notes of Monday.", "work_on", "landings"),
            true,
            ReportSettings.usual());
    String page = pages.get("lesson-orla-finch.html");

    assertThat(PageCheck.words(page))
        .contains("Bring the long notes of Monday.")
        .contains("One thing to work on, picked by your teacher");
    assertThat(PageCheck.said(page)).doesNotContain("Bring the long notes");
    assertThat(page).contains("<h3>" + Task.all("weak_landings", 1).get(2).title() + "</h3>");
  }

  @Test
  void aChoiceThatNobodyKnowsIsSaidToTheTeacherAlone() {
    Map<String, String> pages =
        pages("outside_key", Map.of("work_on", "vibrato"), true, ReportSettings.usual());

    assertThat(PageCheck.words(pages.get("class.html")))
        .contains("The metadata ask Orla Finch to work on \u201cvibrato\u201d, which is none of");
    assertThat(pages.get("lesson-orla-finch.html"))
        .doesNotContain("vibrato")
        .contains("<h3>" + Task.all("outside_key", 1).get(2).title() + "</h3>");
  }

  @Test
  void pseudonymsKeepTheTeachersSentenceOut() {
    Map<String, String> pages =
        pages(
            "none",
            Map.of("teacher_note", "Orla, well done.", "work_on", "Orla"),
            true,
            ReportSettings.usual().withPseudonyms());

    assertThat(PageCheck.together(pages)).doesNotContainIgnoringCase("orla");
  }

  @Test
  void withoutExcerptsASheetHasNoNotes() {
    String page =
        pages("none", Map.of(), true, ReportSettings.usual().withoutExcerpts())
            .get("lesson-orla-finch.html");

    assertThat(page).doesNotContain("class=\"engraving\"");
    assertThat(PageCheck.words(page)).contains("Notes are left out of this report.");
  }

  @Test
  void withoutACorpusThereAreSheetsAndAClassPage() throws Exception {
    Map<String, String> pages = pages("none", Map.of(), false, ReportSettings.usual());

    assertThat(PageCheck.said(pages.get("lesson-orla-finch.html"))).contains("Yes. ");
    assertThat(PageCheck.words(pages.get("class.html"))).contains("Who works on what");
    for (String page : pages.keySet()) {
      assertThat(PageCheck.validity(pages.get(page))).as(page).isEmpty();
    }
  }

  @Test
  void theStudentsPageOpensWithTheSameAnswersAndMakesNoOffersBeforeTheAimsAreMet() {
    Map<String, String> pages = pages("outside_key", Map.of(), true, ReportSettings.usual());
    String page = pages.get("student-orla-finch.html");

    assertThat(PageCheck.words(page))
        .contains("Not yet. 6 of 10 notes are in the key or the chord.")
        .contains("this page makes no offers until the aims are met")
        .contains("In the key: 55, 55, 55 of 100 notes.");
    assertThat(page.indexOf("id=\"answers\"")).isLessThan(page.indexOf("id=\"apart\""));
    assertThat(page).doesNotContain("class=\"suggestions\"");
  }

  @Test
  void theClassPageLeadsToEverySheetAndTellsWhoWorksOnWhat() {
    Map<String, String> pages = pages("no_breath", Map.of(), true, ReportSettings.usual());
    String page = pages.get("class.html");

    assertThat(PageCheck.all(page, "href=\"(lesson-[^\"]*)\""))
        .contains("lesson-orla-finch.html", "lesson-casimir-wold.html");
    assertThat(PageCheck.words(page).toLowerCase(Locale.ROOT))
        .contains("a breath every few bars casimir wold orla finch");
    assertThat(pages.get("index.html")).contains("href=\"class.html\"");
  }

  @Test
  void theSameStudyGivesTheSameSheets() {
    assertThat(pages("none", Map.of(), true, ReportSettings.usual()))
        .isEqualTo(pages("none", Map.of(), true, ReportSettings.usual()));
  }
}
