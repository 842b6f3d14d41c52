package phrasecensus.cli;

import static org.assertj.core.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.abort;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.logging.Level;
import java.util.logging.Logger;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.openqa.selenium.Keys;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.interactions.Actions;
import org.openqa.selenium.logging.LogEntry;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;

/** A Chromium without a window, as a reader of the report has it. */
final class Browser implements AutoCloseable {
  private static final Pattern REQUEST =
      Pattern.compile("Network\\.requestWillBeSent\".*?\"request\":\\{.*?\"url\":\"([^\"]*)\"");

  private static final int PICTURE_HEIGHT = 4000;

  /** Held here because loggers nobody holds are forgotten with their level. */
  private static final Logger SELENIUM = Logger.getLogger("org.openqa.selenium");

  private final ChromeDriver driver;

  private Browser(ChromeDriver driver) {
    this.driver = driver;
  }

  /**
   * Starts one.
   *
   * @param profile an empty folder
   * @return empty when this machine has no Chromium or no driver for it
   */
  static Optional<Browser> start(Path profile) {
    Optional<File> chromium = onPath("chromium", "chromium-browser");
    Optional<File> chromedriver = onPath("chromedriver");
    if (chromium.isEmpty() || chromedriver.isEmpty()) {
      return Optional.empty();
    }
    // It warns of every Chromium newer than itself; nothing here depends on that.
    SELENIUM.setLevel(Level.SEVERE);
    LoggingPreferences logs = new LoggingPreferences();
    logs.enable(LogType.BROWSER, Level.ALL);
    logs.enable(LogType.PERFORMANCE, Level.ALL);
    ChromeOptions options = new ChromeOptions();
    options.setBinary(chromium.get());
    options.setCapability("goog:loggingPrefs", logs);
    // The sandbox does not start for root; the network features would call home.
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
        "--hide-scrollbars",
        "--user-data-dir=" + profile);
    ChromeDriverService service =
        new ChromeDriverService.Builder().usingDriverExecutable(chromedriver.get()).build();
    return Optional.of(new Browser(new ChromeDriver(service, options)));
  }

  /**
   * Starts one, or skips the test where there is none: the environment or a system property {@code
   * BROWSER_TESTS=required} makes that a failure.
   */
  static Browser startOrSkip(Path profile) {
    Optional<Browser> started = start(profile);
    if (started.isEmpty()) {
      String message =
          "No Chromium with its driver on the PATH, so the report is not looked at in a browser."
              + " On Debian: apt-get install chromium chromium-driver";
      String wanted = System.getProperty("BROWSER_TESTS", System.getenv("BROWSER_TESTS"));
      if ("required".equals(wanted)) {
        fail(message);
      }
      abort(message);
    }
    return started.orElseThrow();
  }

  private static Optional<File> onPath(String... names) {
    for (String folder : System.getenv("PATH").split(File.pathSeparator)) {
      for (String name : names) {
        File file = new File(folder, name);
        if (file.canExecute()) {
          return Optional.of(file);
        }
      }
    }
    return Optional.empty();
  }

  ChromeDriver driver() {
    return driver;
  }

  /** Opens a page from disk at a width in CSS pixels and forgets what was logged before. */
  void open(Path page, int width, boolean dark) {
    driver.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of(
            "width",
            width,
            "height",
            width < 600 ? 844 : 900,
            "deviceScaleFactor",
            1,
            "mobile",
            width < 600));
    driver.executeCdpCommand(
        "Emulation.setEmulatedMedia",
        Map.of(
            "features",
            List.of(Map.of("name", "prefers-color-scheme", "value", dark ? "dark" : "light"))));
    driver.manage().logs().get(LogType.BROWSER);
    driver.manage().logs().get(LogType.PERFORMANCE);
    driver.get(page.toUri().toString());
  }

  /** What a script in the page returns. */
  Object script(String script) {
    return driver.executeScript(script);
  }

  /** A number that a script in the page returns. */
  long number(String script) {
    return ((Number) script(script)).longValue();
  }

  /** Messages on the console since the page was opened. */
  List<String> consoleMessages() {
    return driver.manage().logs().get(LogType.BROWSER).getAll().stream()
        .map(LogEntry::getMessage)
        .toList();
  }

  /** Addresses that were asked for since the page was opened. */
  List<String> requests() {
    List<String> addresses = new ArrayList<>();
    for (LogEntry entry : driver.manage().logs().get(LogType.PERFORMANCE)) {
      Matcher request = REQUEST.matcher(entry.getMessage());
      if (request.find()) {
        addresses.add(request.group(1));
      }
    }
    return addresses;
  }

  /** Presses the tab key and says where the focus is: its link's address or its tag. */
  String tab() {
    new Actions(driver).sendKeys(Keys.TAB).perform();
    return (String)
        script(
            "const a = document.activeElement;"
                + "return a.getAttribute('href') || a.tagName.toLowerCase();");
  }

  /** Saves the whole page as pictures {@code name-01.png} and so on, from top to bottom. */
  void photograph(Path folder, String name) {
    long width = number("return document.documentElement.clientWidth");
    long height = number("return document.documentElement.scrollHeight");
    int count = 0;
    for (long top = 0; top < height; top += PICTURE_HEIGHT) {
      Map<String, Object> answer =
          driver.executeCdpCommand(
              "Page.captureScreenshot",
              Map.of(
                  "format",
                  "png",
                  "captureBeyondViewport",
                  true,
                  "clip",
                  Map.of(
                      "x",
                      0,
                      "y",
                      top,
                      "width",
                      width,
                      "height",
                      Math.min(PICTURE_HEIGHT, height - top),
                      "scale",
                      1)));
      save(folder.resolve(String.format(Locale.ROOT, "%s-%02d.png", name, ++count)), answer);
    }
  }

  /** Shows everything in greys, as a copier would, or in colour again. */
  void withoutColour(boolean grey) {
    driver.executeCdpCommand(
        "Emulation.setEmulatedVisionDeficiency", Map.of("type", grey ? "achromatopsia" : "none"));
  }

  /** Prints the page on A4 and saves it. */
  byte[] print(Path file) {
    Map<String, Object> answer =
        driver.executeCdpCommand(
            "Page.printToPDF",
            Map.of("paperWidth", 8.27, "paperHeight", 11.69, "printBackground", false));
    return save(file, answer);
  }

  private static byte[] save(Path file, Map<String, Object> answer) {
    byte[] bytes = Base64.getDecoder().decode((String) answer.get("data"));
    try {
      Files.createDirectories(file.getParent());
      Files.write(file, bytes);
      return bytes;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public void close() {
    driver.quit();
  }
}
