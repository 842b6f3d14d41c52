package phrasecensus.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import phrasecensus.tables.StatisticsCatalogue;

/** Figures on the pages of invented studies. */
class FiguresReportTest {
  private static final String HOSTILE = "<script>alert(1)</script> \"'& \u202Egnp.exe\u202C";

  private static final List<String> OWN =
      List.of("student/mara-lindgren/take-1.musicxml", "student/mara-lindgren/take-2.musicxml");

  private static final String FIRST = "corpus/night-ferry-03.musicxml";
  private static final String SECOND = "corpus/night-ferry-04.musicxml";

  private static Map<String, String> pages(InventedStudy study, ReportSettings settings) {
    return StudyReport.pages(
        study.tables(), study.manifest(), StatisticsCatalogue.builtIn(), settings);
  }

  private static Map<String, String> pages(InventedStudy study) {
    return pages(study, ReportSettings.usual());
  }

  private static final Map<String, String> PAGES = pages(withFigures());

  private static InventedStudy withFigures() {
    return InventedStudy.usual()
        .withFigure("corpus", "", 1, List.of(FIRST, SECOND), 5, List.of())
        .withFigure("student", "Mara Lindgren", 1, List.of(SECOND), 0, OWN);
  }

  @Test
  void aStudyWithoutTheTablesHasNoPageAndNoSectionOfFigures() {
    Map<String, String> pages = pages(InventedStudy.small());

    assertThat(pages).doesNotContainKey("figures.html");
    assertThat(pages.values()).noneMatch(page -> page.contains("id=\"figures\""));
  }

  @Test
  void theCorpusPageTellsTheFiguresAndLeadsToTheirNotation() throws Exception {
    Map<String, String> pages = PAGES;

    assertThat(pages.get("index.html"))
        .contains("href=\"figures.html#figure-1\"")
        .contains("5\u00a0notes: +1 \u22121 \u22122 \u22122 semitones");
    String page = pages.get("figures.html");
    assertThat(page).contains("id=\"figure-1\"").contains("class=\"engraving");
    assertThat(PageCheck.words(page))
        .contains("In 7\u00a0corpus solos by 1\u00a0named player, at 14\u00a0places.")
        .contains("And in 5\u00a0corpus solos more");
    assertThat(PageCheck.all(page, "(data:audio/midi)")).hasSize(1);
    assertThat(PageCheck.validity(page)).isEmpty();
  }

  @Test
  void everySoloIsListedWithItsPlayerAndItsBars() {
    assertThat(PageCheck.words(PAGES.get("figures.html")))
        .contains("Invented 3 Player D 1, 2 2")
        .contains("Invented 4 Player E 1, 2 2");
  }

  @Test
  void aStudentReadsOfOwnFiguresAndWhoElsePlaysThem() throws Exception {
    String page = PAGES.get("student-mara-lindgren.html");

    assertThat(PageCheck.words(page))
        .contains("Your figures, and who else plays them")
        .contains("You play it at 4\u00a0places in 2\u00a0solos.")
        .contains("Who else plays it: it is in 1\u00a0corpus solo by 1\u00a0named player");
    assertThat(page).contains("figure-1-own.mid").contains("figure-1-corpus.mid");
    assertThat(PageCheck.validity(page)).isEmpty();
  }

  @Test
  void aStudentWithoutAFigureIsTold() {
    assertThat(PageCheck.words(PAGES.get("student-tobias-achterberg.html")))
        .contains("No figure of five notes or more comes back in your solos.")
        .doesNotContain("You play it");
  }

  @Test
  void aFigureThatNobodyElsePlaysIsToldSo() {
    String page =
        pages(InventedStudy.usual().withFigure("student", "Mara Lindgren", 1, List.of(), 0, OWN))
            .get("student-mara-lindgren.html");

    assertThat(PageCheck.words(page)).contains("Nobody in the corpus plays it.");
    assertThat(page).doesNotContain("figure-1-corpus");
  }

  @Test
  void aCorpusWithoutAFigureIsTold() throws Exception {
    Map<String, String> pages = pages(InventedStudy.small().withPatterns());

    assertThat(PageCheck.words(pages.get("figures.html")))
        .contains("No figure of five notes or more comes back in two solos of the corpus.");
    assertThat(PageCheck.validity(pages.get("figures.html"))).isEmpty();
  }

  @Test
  void whereNotesAreLeftOutIntervalsAreToo() {
    Map<String, String> pages = pages(withFigures(), ReportSettings.usual().withoutExcerpts());

    for (String page : List.of("index.html", "figures.html", "student-mara-lindgren.html")) {
      assertThat(pages.get(page))
          .contains("A figure of 5\u00a0notes")
          .doesNotContain("\u22121 \u22122")
          .doesNotContain("data:audio/midi");
    }
  }

  @Test
  void longListsAreCut() {
    List<String> solos = new ArrayList<>();
    for (int i = 0; i < 60; i++) {
      solos.add(
          "corpus/"
              + (i % 5 < 3 ? "quayside-swing-" : "night-ferry-")
              + (i < 10 ? "0" : "")
              + i
              + ".musicxml");
    }
    String page =
        pages(InventedStudy.usual().withFigure("corpus", "", 1, solos, 0, List.of()))
            .get("figures.html");

    assertThat(PageCheck.all(page, "(<th scope=\"row\")")).hasSize(40);
    assertThat(PageCheck.words(page)).contains("And in 20\u00a0corpus solos more");
  }

  @Test
  void hostileTextOfSolosIsShownAsText() throws Exception {
    String corpus = "corpus/x/" + HOSTILE;
    String student = "student/" + HOSTILE;
    Map<String, String> pages =
        pages(
            InventedStudy.saying(HOSTILE)
                .withFigure("corpus", "", 1, List.of(corpus), 0, List.of())
                .withFigure("student", HOSTILE, 1, List.of(corpus), 0, List.of(student)));

    assertThat(pages).containsKey("figures.html");
    for (String page : pages.values()) {
      assertThat(PageCheck.withoutPlayer(page)).doesNotContain("<script");
      String outside =
          page.replaceAll("(?s)<bdi>[^<]*</bdi>", "").replaceAll("(?s)aria-label=\"[^\"]*\"", "");
      assertThat(outside).doesNotContain("\u202E");
      assertThat(PageCheck.validity(page)).isEmpty();
    }
  }

  @Test
  void noStudentIsNamedOnThePageOfAnother() {
    Map<String, String> pages = PAGES;

    assertThat(pages.get("student-tobias-achterberg.html")).doesNotContain("Mara");
    assertThat(PageCheck.words(pages.get("figures.html"))).doesNotContain("take-1");
  }
}
