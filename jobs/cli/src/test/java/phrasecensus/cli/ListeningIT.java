package phrasecensus.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.deque.html.axecore.args.AxeRunOptions;
import com.deque.html.axecore.results.Rule;
import com.deque.html.axecore.selenium.AxeBuilder;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import javax.sound.midi.MidiSystem;
import javax.sound.midi.ShortMessage;
import javax.sound.midi.Track;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.interactions.Actions;
import org.openqa.selenium.support.ui.Select;

/**
 * Phrases are heard in a browser, from disk. What the oscillators are told to play is written down
 * and held against the MIDI file behind the link, read by the JDK.
 */
class ListeningIT {
  private static final String SECOND_PHRASE = "#listen li:nth-child(3) .listen";

  private static final int WANTED = 14;

  /** Writes every oscillator's start down before the page's own script is read. */
  private static final String LISTENER =
      "window.heard = [];"
          + "const start = OscillatorNode.prototype.start;"
          + "OscillatorNode.prototype.start = function (at) {"
          + "  window.heard.push([this.frequency.value, at]); return start.call(this, at); };"
          + "const connect = AudioNode.prototype.connect;"
          + "AudioNode.prototype.connect = function (to, ...more) {"
          + "  if (to === to.context.destination) window.master = this;"
          + "  return connect.call(this, to, ...more); };";

  @TempDir private static Path temporary;
  private static Browser browser;

  @BeforeAll
  static void startBrowser() throws IOException {
    browser = Browser.startOrSkip(Files.createDirectory(temporary.resolve("profile")));
    browser
        .driver()
        .executeCdpCommand("Page.addScriptToEvaluateOnNewDocument", Map.of("source", LISTENER));
  }

  @AfterAll
  static void closeBrowser() {
    if (browser != null) {
      browser.close();
    }
  }

  private static void allowScripts(boolean allowed) {
    browser
        .driver()
        .executeCdpCommand("Emulation.setScriptExecutionDisabled", Map.of("value", !allowed));
  }

  @AfterEach
  void allowScripts() {
    allowScripts(true);
  }

  private static void open(int width) {
    Path page = SampleStudy.folder().resolve("report/student-jory-venn-solo-1.html");
    browser.open(page, width, false);
  }

  private static WebElement find(String selector) {
    return browser.driver().findElement(By.cssSelector(selector));
  }

  /** Clicks what is scrolled to first, at once, where the page itself scrolls smoothly. */
  private static void press(String selector) {
    browser.script(
        "document.querySelector('"
            + selector
            + "').scrollIntoView({block: 'center', behavior: 'instant'})");
    find(selector).click();
  }

  private static String status() {
    return find(".player [role=status]").getText();
  }

  private static Track[] tracks(String selector) throws Exception {
    byte[] midi =
        Base64.getDecoder().decode(find(selector).getAttribute("href").replaceFirst("^[^,]*,", ""));
    return MidiSystem.getSequence(new ByteArrayInputStream(midi)).getTracks();
  }

  /** Pitches and onsets in ticks of the line behind a link. */
  private static List<long[]> notes(String selector) throws Exception {
    Track track = tracks(selector)[0];
    List<long[]> notes = new ArrayList<>();
    for (int i = 0; i < track.size(); i++) {
      if (track.get(i).getMessage() instanceof ShortMessage message
          && message.getCommand() == ShortMessage.NOTE_ON) {
        notes.add(new long[] {message.getData1(), track.get(i).getTick()});
      }
    }
    return notes;
  }

  /** Frequencies and starts of at least so many notes; they are scheduled little by little. */
  @SuppressWarnings("unchecked")
  private static List<List<Number>> heard(int notes) throws InterruptedException {
    for (int i = 0; i < 200 && browser.number("return window.heard.length") < notes; i++) {
      Thread.sleep(50);
    }
    return (List<List<Number>>) browser.script("return window.heard");
  }

  private static void choose(String list, String value) {
    new Select(find(list)).selectByValue(value);
  }

  @Test
  void withoutScriptsThereAreLinksAndNoButtons() {
    allowScripts(false);
    open(1280);

    assertThat(find(SECOND_PHRASE + " button").isDisplayed()).isFalse();
    assertThat(find(".player").isDisplayed()).isFalse();
    assertThat(find(SECOND_PHRASE + " a").isDisplayed()).isTrue();
  }

  /** Equal temperament on A4 = 440 Hz (ISO 16:1975, from memory); a quarter note has 480 ticks. */
  @Test
  void thePlayerPlaysTheNotesOfTheFileStraight() throws Exception {
    open(1280);
    List<long[]> notes = notes(SECOND_PHRASE + " a");

    press(SECOND_PHRASE + " button");
    List<List<Number>> heard = heard(Math.min(WANTED, notes.size()));

    assertThat(status()).startsWith("Playing: Phrase 2, ").contains("; straight eighths, ");
    double quarter = 60 / Double.parseDouble(status().replaceAll(".*, ([0-9]+) quarter.*", "$1"));
    assertThat(heard).hasSizeGreaterThan(5);
    for (int i = 0; i < heard.size(); i++) {
      assertThat(heard.get(i).get(0).doubleValue())
          .isCloseTo(440 * Math.pow(2, (notes.get(i)[0] - 69) / 12.0), within(0.01));
      assertThat(heard.get(i).get(1).doubleValue() - heard.get(0).get(1).doubleValue())
          .isCloseTo((notes.get(i)[1] - notes.get(0)[1]) / 480.0 * quarter, within(0.01));
    }
    assertThat(browser.consoleMessages()).isEmpty();
    assertThat(browser.requests()).allMatch(address -> address.matches("(file|data):.*"));
  }

  @Test
  void swungTheSecondHalfOfABeatComesAtTwoThirds() throws Exception {
    open(1280);
    List<long[]> notes = notes(SECOND_PHRASE + " a");
    press(SECOND_PHRASE + " button");
    choose(".eighths", "swung");
    press(".stop");
    browser.script("window.heard = []");

    press(SECOND_PHRASE + " button");
    List<List<Number>> heard = heard(Math.min(WANTED, notes.size()));

    assertThat(status()).contains("swung eighths, two to one");
    double quarter = 60 / Double.parseDouble(status().replaceAll(".*, ([0-9]+) quarter.*", "$1"));
    int late = 0;
    for (int i = 1; i < heard.size(); i++) {
      boolean onBeat = notes.get(i - 1)[1] % 480 == 0;
      if (onBeat && notes.get(i)[1] - notes.get(i - 1)[1] == 240) {
        late++;
        assertThat(heard.get(i).get(1).doubleValue() - heard.get(i - 1).get(1).doubleValue())
            .isCloseTo(2 / 3.0 * quarter, within(0.01));
      }
    }
    assertThat(late).as("eighths after the beat").isPositive();
  }

  private static final double CLICK_ON_ONE = 440 * Math.pow(2, (96 - 69) / 12.0);
  private static final double CLICK = 440 * Math.pow(2, (91 - 69) / 12.0);

  private static boolean isClick(List<Number> heard) {
    double frequency = heard.get(0).doubleValue();
    return Math.abs(frequency - CLICK) < 0.01 || Math.abs(frequency - CLICK_ON_ONE) < 0.01;
  }

  /** The bass of the file's third track sounds with the line, at its own tick. */
  @Test
  void chordsAndBassSoundUnderTheLineWhenAskedFor() throws Exception {
    open(1280);
    Track bass = tracks(SECOND_PHRASE + " a")[2];
    int first = -1;
    for (int i = 0; i < bass.size() && first < 0; i++) {
      if (bass.get(i).getMessage() instanceof ShortMessage message
          && message.getCommand() == ShortMessage.NOTE_ON) {
        first = message.getData1();
      }
    }
    press(SECOND_PHRASE + " button");
    int alone = heard(4).size();
    press(".stop");
    choose(".under", "chords");
    browser.script("window.heard = []");

    press(SECOND_PHRASE + " button");
    List<List<Number>> heard = heard(alone + 1);

    double wanted = 440 * Math.pow(2, (first - 69) / 12.0);
    assertThat(heard).anyMatch(each -> Math.abs(each.get(0).doubleValue() - wanted) < 0.01);
  }

  /** Two bars of four before the bar in which the phrase begins, then the beats up to it. */
  @Test
  void theClickCountsTwoBarsIn() throws Exception {
    open(1280);
    press(SECOND_PHRASE + " button");
    find(".click").click();
    choose(".speed", "125");
    press(".stop");
    browser.script("window.heard = []");
    int beat = Integer.parseInt(find(SECOND_PHRASE + " a").getAttribute("data-beat"));

    press(SECOND_PHRASE + " button");
    List<List<Number>> heard = heard(8 + beat + 3);
    List<Number> line = heard.stream().filter(each -> !isClick(each)).findFirst().orElseThrow();
    long before =
        heard.stream()
            .filter(ListeningIT::isClick)
            .filter(each -> each.get(1).doubleValue() < line.get(1).doubleValue() - 0.001)
            .count();

    assertThat(before).isBetween(8L + beat, 8L + beat + 1);
    assertThat(heard.get(0).get(0).doubleValue()).isCloseTo(CLICK_ON_ONE, within(0.01));
    assertThat(heard.get(4).get(0).doubleValue()).isCloseTo(CLICK_ON_ONE, within(0.01));
  }

  /** W3C WCAG 2.2, success criterion 2.4.11: what has the focus is not hidden by the player. */
  @ParameterizedTest
  @ValueSource(ints = {390, 1280})
  void thePlayerHidesNothingThatHasTheFocus(int width) {
    open(width);
    press(SECOND_PHRASE + " button");

    Object hidden =
        browser.script(
            "document.documentElement.style.scrollBehavior = 'auto';const bar ="
                + " document.querySelector('.player');const found = [];for (const each of"
                + " document.querySelectorAll('a[href], button, summary')) {  if"
                + " (bar.contains(each) || !each.checkVisibility() || each.disabled) continue; "
                + " each.focus();  const top = bar.getBoundingClientRect().top;  const box ="
                + " each.getBoundingClientRect();  if (document.activeElement === each && box.top <"
                + " bar.getBoundingClientRect().bottom      && box.bottom > top + 1)"
                + " found.push(each.textContent);}return found");

    assertThat((List<?>) hidden).isEmpty();
  }

  @Test
  void itStartsQuietlyAndTheSliderIsTheMaster() {
    open(1280);
    press(SECOND_PHRASE + " button");

    double first = ((Number) browser.script("return window.master.gain.value")).doubleValue();
    find(".player .loudness").sendKeys(Keys.END);
    browser.script("const until = performance.now() + 400; while (performance.now() < until);");
    double last = ((Number) browser.script("return window.master.gain.value")).doubleValue();

    assertThat(first).isPositive().isLessThan(0.05);
    assertThat(last).isGreaterThan(first).isLessThan(0.5);
    assertThat(find("#listen .how").getText()).contains("starts quietly", "clinician");
  }

  @Test
  void keysStartAndStop() {
    open(1280);
    browser.script("document.querySelector('" + SECOND_PHRASE + " button').focus()");

    new Actions(browser.driver()).sendKeys(Keys.ENTER).perform();
    assertThat(status()).startsWith("Playing: ");
    assertThat(find(SECOND_PHRASE + " button").getAttribute("aria-pressed")).isEqualTo("true");
    new Actions(browser.driver()).sendKeys(Keys.ESCAPE).perform();

    assertThat(status()).isEqualTo("Stopped.");
    assertThat(find(SECOND_PHRASE + " button").getAttribute("aria-pressed")).isEqualTo("false");
    assertThat(find(".stop").isEnabled()).isFalse();
  }

  @ParameterizedTest
  @ValueSource(ints = {390, 1280})
  void thePlayerFitsAndPleasesTheAccessibilityChecker(int width) {
    open(width);
    press(SECOND_PHRASE + " button");
    AxeRunOptions options = new AxeRunOptions();
    options.setResultTypes(List.of("violations"));
    browser.photograph(
        Path.of(System.getProperty("project.root"), "jobs/cli/target/screenshots"),
        "listening-" + width);

    assertThat(browser.number("return document.documentElement.scrollWidth"))
        .isLessThanOrEqualTo(width);
    assertThat(
            new AxeBuilder()
                .withOptions(options)
                .exclude("svg")
                .analyze(browser.driver())
                .getViolations())
        .extracting(Rule::getId)
        .isEmpty();
  }

  @Test
  void theLinkSavesAMidiFileUnderAPlainName() throws Exception {
    Path downloads = Files.createDirectories(temporary.resolve("downloads"));
    open(1280);
    browser
        .driver()
        .executeCdpCommand(
            "Browser.setDownloadBehavior",
            Map.of("behavior", "allow", "downloadPath", downloads.toString()));

    press(SECOND_PHRASE + " a");
    Path file = downloads.resolve("student-jory-venn-solo-1-phrase-2.mid");
    for (int i = 0; i < 100 && !Files.exists(file); i++) {
      Thread.sleep(50);
    }

    assertThat(MidiSystem.getSequence(file.toFile()).getResolution()).isEqualTo(480);
    assertThat(browser.consoleMessages()).isEmpty();
  }
}
