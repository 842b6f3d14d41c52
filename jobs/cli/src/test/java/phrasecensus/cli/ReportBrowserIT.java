package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.deque.html.axecore.args.AxeRunOptions;
import com.deque.html.axecore.results.Rule;
import com.deque.html.axecore.selenium.AxeBuilder;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.assertj.core.api.SoftAssertions;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The report of the sample study in a browser, from disk: nothing is fetched, nothing is broken,
 * and it can be read on a phone, in the dark, on paper, with a keyboard and by a screen reader.
 *
 * <p>Without Chromium and its driver the class is skipped, unless the environment or a system
 * property says {@code BROWSER_TESTS=required}. Pictures of the pages are left in {@code
 * target/screenshots}.
 */
class ReportBrowserIT {
  private static final int DESKTOP = 1280;
  private static final int PHONE = 390;
  private static final Path PICTURES =
      Path.of(System.getProperty("project.root"), "jobs/cli/target/screenshots");

  @TempDir private static Path temporary;
  private static Browser browser;

  @BeforeAll
  static void startBrowser() throws IOException {
    browser = Browser.startOrSkip(Files.createDirectory(temporary.resolve("profile")));
  }

  @AfterAll
  static void closeBrowser() {
    if (browser != null) {
      browser.close();
    }
  }

  /** A page of each kind; the others differ from these in what they say, not in how. */
  static List<Path> kinds() {
    return List.of(
        page("index.html"),
        page("class.html"),
        page("lesson-jory-venn.html"),
        page("mail-jory-venn.html"),
        page("student-jory-venn.html"),
        page("student-jory-venn-solo-1.html"));
  }

  private static Path page(String name) {
    return SampleStudy.folder().resolve("report").resolve(name);
  }

  private static String picture(Path page, String kind) {
    return page.getFileName().toString().replace(".html", "") + "-" + kind;
  }

  /** A page of the report at a width and in a colour scheme. */
  record View(Path page, int width, boolean dark) {
    @Override
    public String toString() {
      return page.getFileName() + " at " + width + " pixels, " + (dark ? "dark" : "light");
    }

    private String picture() {
      return ReportBrowserIT.picture(
          page, (width == PHONE ? "phone" : "desktop") + (dark ? "-dark" : ""));
    }
  }

  static List<View> views() {
    List<View> views = new ArrayList<>();
    for (Path page : kinds()) {
      for (int width : new int[] {DESKTOP, PHONE}) {
        views.add(new View(page, width, false));
        views.add(new View(page, width, true));
      }
    }
    return views;
  }

  /**
   * Everything that can be asked of one view, so that each is opened once. The pictures hold nearly
   * all elements of a page and are the same in every view, and axe leaves the contrast of text in
   * them undecided; so they are searched once a page.
   */
  @ParameterizedTest(name = "{0}")
  @MethodSource("views")
  void aViewIsQuietFitsAndPleasesTheAccessibilityChecker(View view) {
    browser.open(view.page(), view.width(), view.dark());
    browser.photograph(PICTURES, view.picture());

    SoftAssertions.assertSoftly(
        softly -> {
          assertQuietAndFitting(softly, view.width());
          softly
              .assertThat(
                  view.width() == DESKTOP && !view.dark() ? violations() : violationsOutside("svg"))
              .as("axe")
              .extracting(
                  rule ->
                      rule.getId() + ": " + rule.getHelp() + " " + rule.getNodes().get(0).getHtml())
              .isEmpty();
        });
  }

  /** Console, requests and width; before axe, which says things of its own. */
  private static void assertQuietAndFitting(SoftAssertions softly, int width) {
    softly.assertThat(browser.consoleMessages()).as("console").isEmpty();
    softly
        .assertThat(browser.requests())
        .as("requests")
        .isNotEmpty()
        .allMatch(address -> address.startsWith("file:") || address.startsWith("data:"));
    softly
        .assertThat(
            browser.number(
                "return performance.getEntriesByType('resource')"
                    + ".filter(e => !/^(file|data):/.test(e.name)).length"))
        .as("resources from elsewhere")
        .isZero();
    softly
        .assertThat(browser.number("return document.documentElement.clientWidth"))
        .as("width of the window")
        .isEqualTo(width);
    softly
        .assertThat(browser.number("return document.documentElement.scrollWidth"))
        .as("width of the page")
        .isLessThanOrEqualTo(width);
  }

  @Test
  void everyOtherPageIsQuietAndFitsAPhone() {
    for (Path page : SampleStudy.pages()) {
      if (!kinds().contains(page)) {
        browser.open(page, PHONE, false);
        SoftAssertions.assertSoftly(softly -> assertQuietAndFitting(softly, PHONE));
      }
    }
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("kinds")
  void aPageIsReadWithoutColour(Path page) {
    browser.open(page, DESKTOP, false);

    browser.withoutColour(true);
    browser.photograph(PICTURES, picture(page, "grey"));
    browser.withoutColour(false);

    assertThat(PICTURES.resolve(picture(page, "grey") + "-01.png")).isNotEmptyFile();
  }

  private static List<Rule> violations() {
    return axe().analyze(browser.driver()).getViolations();
  }

  private static List<Rule> violationsOutside(String selector) {
    return axe().exclude(selector).analyze(browser.driver()).getViolations();
  }

  private static AxeBuilder axe() {
    AxeRunOptions options = new AxeRunOptions();
    // What passes would be told element by element.
    options.setResultTypes(List.of("violations"));
    return new AxeBuilder().withOptions(options);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("kinds")
  void theTabKeyReachesTheContentThenTheNavigation(Path page) {
    browser.open(page, DESKTOP, false);

    assertThat(browser.tab()).isEqualTo("#content");
    assertThat(
            browser.script(
                "const r = document.activeElement.getBoundingClientRect();"
                    + "return r.left >= 0 && r.top >= 0 && r.width > 0"))
        .as("the skip link is seen when it has the focus")
        .isEqualTo(true);
    List<String> links = navigation(page.getFileName().toString());
    List<String> next = new ArrayList<>();
    for (int i = 0; i < links.size(); i++) {
      next.add(browser.tab());
    }
    assertThat(next).isEqualTo(links);
  }

  /** The links of a page before its content: those of a student lead to nobody else. */
  private static List<String> navigation(String page) {
    return switch (page) {
      case "index.html" ->
          List.of(
              "index.html",
              "class.html",
              "student-hester-loom.html",
              "student-jory-venn.html",
              "student-pim-garrow.html");
      case "class.html" -> List.of("index.html", "class.html");
      case "lesson-jory-venn.html" -> List.of("student-jory-venn.html", "mail-jory-venn.html");
      case "mail-jory-venn.html" -> List.of();
      default -> List.of("lesson-jory-venn.html", "student-jory-venn.html");
    };
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("kinds")
  void everyStopOfTheTabKeyIsSeen(Path page) {
    browser.open(page, DESKTOP, false);

    long stops =
        browser.number(
            "return document.querySelectorAll('a[href],summary,[tabindex=\"0\"],button').length");
    for (long i = 0; i < Math.min(stops, 40); i++) {
      browser.tab();
      assertThat(
              browser.script(
                  "const a = document.activeElement, r = a.getBoundingClientRect();"
                      + "return a === document.body || (r.width > 0 && r.height > 0"
                      + " && getComputedStyle(a).outlineStyle !== 'none')"))
          .as(
              "stop %d, %s",
              i, browser.script("return document.activeElement.outerHTML.slice(0, 99)"))
          .isEqualTo(true);
    }
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("kinds")
  void aPrintedPageIsAHandoutWithoutEmptySheets(Path page) {
    browser.open(page, DESKTOP, true);

    byte[] printed = browser.print(PICTURES.resolve(picture(page, "print.pdf")));

    List<Integer> texts = PrintedPages.textsPerPage(printed);
    assertThat(texts).as("texts on each page").isNotEmpty().allMatch(count -> count > 3);
    // A handout: what is closed on the screen stays off the paper.
    assertThat(texts).as("pages").hasSizeLessThanOrEqualTo(page.endsWith("index.html") ? 16 : 10);
  }

  /** A page with each of these faults, so that a silent check is known to be a listening one. */
  @Test
  void theChecksFindAPageThatIsWrong() throws IOException {
    Path wrong = temporary.resolve("wrong.html");
    Files.writeString(
        wrong,
        "<!DOCTYPE html><title>Wrong</title>"
            + "<meta name='viewport' content='width=device-width'>"
            + "<img src='http://127.0.0.1:9/picture.png'>"
            + "<p style='width:2000px;color:#999;background:#aaa'>One two three four five</p>"
            + "<script>console.error('wrong')</script>"
            + "<p style='break-before:page'>&nbsp;</p><p style='break-before:page'>End</p>");

    browser.open(wrong, PHONE, false);

    assertThat(browser.consoleMessages()).anyMatch(message -> message.contains("wrong"));
    assertThat(browser.requests()).anyMatch(address -> address.startsWith("http:"));
    assertThat(browser.number("return document.documentElement.scrollWidth")).isGreaterThan(PHONE);
    assertThat(violations())
        .extracting(Rule::getId)
        .contains("image-alt", "color-contrast", "html-has-lang");
    assertThat(PrintedPages.textsPerPage(browser.print(temporary.resolve("wrong.pdf"))))
        .hasSize(3)
        .anyMatch(count -> count <= 1);
  }

  // Names and titles from files are text and nothing else

  private static final String NASTY_STUDENT = "<script>alert(1)</script>";
  private static final String NASTY_TITLE =
      "\"Quoted\" 'title' & <img src=x onerror=alert(2)> שלום \u202Eabc";

  private static Path hostileReport() throws IOException {
    Path folder = temporary.resolve("hostile");
    if (Files.exists(folder)) {
      return folder.resolve("study/report");
    }
    SampleCorpus.firstSolos(folder.resolve("corpus"), 3);
    Path students = Files.createDirectories(folder.resolve("students"));
    String score = Files.readString(SampleCorpus.A_SOLO);
    String title = NASTY_TITLE.replace("&", "&amp;").replace("<", "&lt;");
    assertThat(score).contains("Tarpaulin Blues");
    Files.writeString(students.resolve("first.musicxml"), score.replace("Tarpaulin Blues", title));
    Files.writeString(students.resolve("second.musicxml"), score);
    Files.writeString(
        students.resolve("solos.csv"),
        "file,student,date\n"
            + "first.musicxml,"
            + NASTY_STUDENT
            + ",2026-01-01\nsecond.musicxml,"
            + NASTY_STUDENT
            + ",2026-02-01\n");
    Path study = folder.resolve("study");
    CommandRun run =
        CommandRun.of(
            "study",
            folder.resolve("corpus").toString(),
            "--students",
            students.toString(),
            "--into",
            study.toString());
    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
    return study.resolve("report");
  }

  private static Path studentPage(Path report) throws IOException {
    try (var files = Files.list(report)) {
      return files
          .filter(file -> file.getFileName().toString().startsWith("student-"))
          .min(Comparator.comparing(file -> file.getFileName().toString().length()))
          .orElseThrow();
    }
  }

  @Test
  void aNameThatLooksLikeAScriptIsShownAsText() throws IOException {
    Path page = studentPage(hostileReport());

    browser.open(page, DESKTOP, false);

    // An open alert would make every further command fail.
    assertThat(browser.script("return document.querySelector('h1').textContent").toString())
        .contains(NASTY_STUDENT);
    assertThat(browser.number("return document.querySelectorAll('script').length")).isOne();
    assertThat(browser.number("return document.querySelectorAll('img,[src]').length")).isZero();
    assertThat(browser.consoleMessages()).isEmpty();
    assertThat(page.getFileName().toString().toLowerCase(Locale.ROOT))
        .matches("student-[a-z0-9-]+\\.html");
  }

  @Test
  void aTitleWithQuotesAndOtherScriptsIsShownAsTextAndTurnsNothingAround() throws IOException {
    Path page = studentPage(hostileReport());

    browser.open(page, DESKTOP, false);
    browser.photograph(PICTURES, "hostile-names");

    String text = browser.script("return document.body.innerText").toString();
    assertThat(text).contains("\"Quoted\" 'title' & <img src=x onerror=alert(2)>");
    assertThat(
            browser.script(
                "const w = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);"
                    + "const loose = [];"
                    + "while (w.nextNode()) {"
                    + "  if (!w.currentNode.data.includes('Quoted')) continue;"
                    + "  let e = w.currentNode.parentElement, isolated = false;"
                    + "  for (; e && e !== document.body; e = e.parentElement)"
                    + "    if (/isolate|plaintext/.test(getComputedStyle(e).unicodeBidi))"
                    + "      isolated = true;"
                    + "  if (!isolated) loose.push(w.currentNode.parentElement.outerHTML);"
                    + "}"
                    + "return loose.join('\\n')"))
        .as("titles that can turn the text around them")
        .isEqualTo("");
  }
}
