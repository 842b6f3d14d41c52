package phrasecensus.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.interactions.Actions;
import phrasecensus.tables.StatisticsCatalogue;

/**
 * The pages in a browser: how they fit the narrowest screen, and the keyboard. Needs Chromium and
 * its driver; where they are missing it is skipped, unless the environment says that they have to
 * be there.
 */
class ReportIT {
  private static final Path CHROMIUM = Path.of("/usr/bin/chromium");
  private static final Path DRIVER = Path.of("/usr/bin/chromedriver");

  @TempDir private static Path folder;
  private static ChromeDriver browser;

  @BeforeAll
  static void openTheReport() {
    boolean present = Files.isExecutable(CHROMIUM) && Files.isExecutable(DRIVER);
    assumeTrue(
        present || "required".equals(System.getenv("BROWSER_TESTS")),
        "skipped: " + CHROMIUM + " and " + DRIVER + " are not both installed");
    StudyReport.write(
        InventedStudy.usual().tables(),
        InventedStudy.usual().manifest(),
        StatisticsCatalogue.builtIn(),
        ReportSettings.usual(),
        folder.resolve("report"));
    ChromeOptions options = new ChromeOptions();
    options.setBinary(CHROMIUM.toFile());
    options.addArguments(
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        "--disable-dev-shm-usage",
        "--user-data-dir=" + folder.resolve("browser"));
    browser =
        new ChromeDriver(
            new ChromeDriverService.Builder().usingDriverExecutable(DRIVER.toFile()).build(),
            options);
  }

  @AfterAll
  static void closeTheBrowser() {
    if (browser != null) {
      browser.quit();
    }
  }

  private static void open(String page, int width, String scheme) {
    browser.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of("width", width, "height", 900, "deviceScaleFactor", 1, "mobile", false));
    browser.executeCdpCommand(
        "Emulation.setEmulatedMedia",
        Map.of("features", List.of(Map.of("name", "prefers-color-scheme", "value", scheme))));
    browser.get(folder.resolve("report").resolve(page).toUri().toString());
  }

  @ParameterizedTest
  @CsvSource({
    "index.html,320",
    "student-mara-lindgren.html,320",
    "student-mara-lindgren-solo-1.html,320"
  })
  void nothingStandsWiderThanTheScreen(String page, int width) {
    open(page, width, "light");

    assertThat(
            browser.executeScript(
                "const page = document.documentElement;"
                    + "return page.scrollWidth - page.clientWidth"))
        .isEqualTo(0L);
  }

  /** Pictures that are scaled down on a phone cannot be read there. */
  @ParameterizedTest
  @CsvSource({"390", "1280"})
  void lettersInPicturesHaveTheSameSizeOnEveryScreen(int width) {
    open("student-mara-lindgren-solo-1.html", width, "light");
    browser.executeScript("document.querySelectorAll('details').forEach(d => d.open = true)");

    assertThat(
            browser.executeScript(
                "const text = document.querySelector('.picture text.chord');"
                    + "return text.getBoundingClientRect().height"))
        .asString()
        .matches("1[4-9](\\..*)?");
  }

  @ParameterizedTest
  @CsvSource({"390,4", "1280,8"})
  void aRowHoldsFourBarsOnAPhoneAndEightOnADesk(int width, int bars) {
    open("student-mara-lindgren-solo-1.html", width, "light");
    browser.executeScript("document.querySelectorAll('details').forEach(d => d.open = true)");

    Object inFirstRow =
        browser.executeScript(
            "const lines = [...document.querySelectorAll('.timeline')[0].children];"
                + "const top = lines[0].getBoundingClientRect().top;"
                + "return lines.filter(l => l.getBoundingClientRect().top === top).length");

    assertThat(inFirstRow).isEqualTo(bars / 4L);
  }

  @Test
  void theKeyboardReachesTheContentAndOpensTheTables() {
    open("student-mara-lindgren.html", 1280, "light");

    new Actions(browser).sendKeys(Keys.TAB).perform();
    WebElement first = browser.switchTo().activeElement();
    assertThat(first.getText()).isEqualTo("Skip to the content");
    assertThat(first.getCssValue("outline-style")).isEqualTo("solid");

    WebElement summary =
        browser.findElement(org.openqa.selenium.By.cssSelector("#questions details summary"));
    browser.executeScript("arguments[0].focus()", summary);
    new Actions(browser).sendKeys(Keys.ENTER).perform();

    assertThat(browser.executeScript("return arguments[0].parentElement.open", summary))
        .isEqualTo(true);
  }
}
