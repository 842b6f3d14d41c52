package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.assertj.core.api.SoftAssertions;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import phrasecensus.report.wording.ReadingGrade;

/**
 * Every lesson sheet of the sample study, and of 33 invented beginners where they lie beside the
 * checkout: one side of A4, no longer than it may be on a phone, few words, easy to read. What was
 * found stands in {@code target/lesson-sheets.csv}.
 */
class LessonSheetsIT {
  private static final int PHONE = 390;
  private static final long TALLEST = 3400;
  private static final int MOST_WORDS = 250;
  private static final double HIGHEST_GRADE = 6;
  private static final Path TARGET = Path.of(System.getProperty("project.root"), "jobs/cli/target");
  private static final Pattern SAID = Pattern.compile("(?s)<p class=\"say[^\"]*\">(.*?)</p>");

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

  @Test
  void sheetsOfTheSampleStudyKeepToTheirSide() {
    assertThat(looked(SampleStudy.folder().resolve("report"), "sample")).isEqualTo(3);
  }

  @Test
  void sheetsOfBeginnersKeepToTheirSide() throws IOException {
    Path beginners =
        Path.of(System.getProperty("project.root"), "..", "shared", "beginners").normalize();
    assumeTrue(Files.isDirectory(beginners), "skipped: no folder " + beginners);
    Path study = temporary.resolve("beginners-study");
    CommandRun run =
        CommandRun.of(
            "study",
            SampleCorpus.FOLDER.resolve("corpus").toString(),
            "--students",
            beginners.toString(),
            "--into",
            study.toString());
    assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);

    assertThat(looked(study.resolve("report"), "beginners")).isEqualTo(33);
  }

  /** Looks at every sheet of a report; says how many there are. */
  private static int looked(Path report, String name) {
    List<String> table = new ArrayList<>(List.of("sheet,words,grade,height,pages"));
    SoftAssertions softly = new SoftAssertions();
    List<Path> sheets = sheets(report);
    for (Path sheet : sheets) {
      String said = said(sheet);
      int words = ReadingGrade.words(said).size();
      double grade = ReadingGrade.of(said);
      browser.open(sheet, PHONE, false);
      long height = browser.number("return document.documentElement.scrollHeight");
      Path pdf = TARGET.resolve("screenshots").resolve(name + "-" + sheet.getFileName() + ".pdf");
      int pages = PrintedPages.textsPerPage(browser.print(pdf)).size();
      table.add(
          String.format(
              Locale.ROOT, "%s,%d,%.1f,%d,%d", sheet.getFileName(), words, grade, height, pages));
      softly.assertThat(words).as("%s: words", sheet).isLessThanOrEqualTo(MOST_WORDS);
      softly.assertThat(grade).as("%s: grade", sheet).isLessThanOrEqualTo(HIGHEST_GRADE);
      softly.assertThat(height).as("%s: height", sheet).isLessThanOrEqualTo(TALLEST);
      softly.assertThat(pages).as("%s: pages", sheet).isOne();
    }
    try {
      Files.write(TARGET.resolve("lesson-sheets-" + name + ".csv"), table);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    softly.assertAll();
    return sheets.size();
  }

  private static List<Path> sheets(Path report) {
    try (Stream<Path> files = Files.list(report)) {
      return files
          .filter(file -> file.getFileName().toString().startsWith("lesson-"))
          .sorted()
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * The running sentences: titles, labels, notes and the teacher's own words are other elements.
   */
  private static String said(Path sheet) {
    try {
      List<String> said = new ArrayList<>();
      Matcher sentence = SAID.matcher(Files.readString(sheet));
      while (sentence.find()) {
        said.add(
            sentence
                .group(1)
                .replaceAll("<[^>]*>", "")
                .replace("&#39;", "'")
                .replace("&amp;", "&")
                .strip());
      }
      return String.join("\n", said);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
