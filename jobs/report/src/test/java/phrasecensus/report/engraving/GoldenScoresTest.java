package phrasecensus.report.engraving;

import static org.assertj.core.api.Assertions.assertThat;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import phrasecensus.music.time.Fraction;
import phrasecensus.report.rows.SoloLine;

/**
 * Tiny scores, each held against the SVG that was looked at. {@code -Dgolden.update=true} writes
 * them anew; the difference is then to be looked at again.
 */
class GoldenScoresTest {
  private static final boolean UPDATE = Boolean.getBoolean("golden.update");
  private static final Path FOLDER =
      Path.of(System.getProperty("project.root", "../.."), "jobs/report/src/test/resources/golden");
  private static final TemplateEngine TEMPLATES =
      TemplateEngine.createPrecompiled(
          null,
          ContentType.Html,
          GoldenScoresTest.class.getClassLoader(),
          "phrasecensus.report.page");

  private static final SoloLine.Staff PLAIN = SoloLine.Staff.BARE;

  private static SoloLine score(String name) {
    return switch (name) {
      case "eighths-in-common-time" ->
          line("4/4", "C5 1/2, D5 1/2, E5 1/2, F5 1/2, G5 1/2, F5 1/2, E5 1/2, D5 1/2, C5 4");
      case "pickup-and-rests" ->
          LineBuilder.solo("4/4", Fraction.ONE, "G4 1/2, A4 1/2, B4 1, - 1, C5 2, - 4");
      case "accidentals" ->
          line("4/4", "F#5 1, F5 1, Bb4 1, B4 1, C##5 1, Dbb5 1, C#5 1/2, C#6 1/2, C5 1");
      case "ties-over-the-bar-line" -> line("4/4", "A4 5/2, B4 3, C6 5/2");
      case "tuplets-within-a-tuplet" ->
          line(
              "4/4",
              "C5 1/3, D5 1/3, E5 1/9, F5 1/9, G5 1/9, A5 1/5, B5 1/5, A5 1/5, G5 1/5, F5 1/5, E5"
                  + " 2");
      case "sixteenths-and-dots" ->
          line(
              "2/4",
              "C4 3/4, D4 1/4, E4 1/4, F4 1/4, G4 1/2, A6 1/8, G6 1/8, F6 1/4, E6 1/2, D6 1");
      case "waltz-in-the-bass" -> line("3/4", "C3 1, E3 1, G3 1, B2 3/2, A2 1/2, G2 1, F2 3");
      case "compound-time" -> line("6/8", "C5 1, D5 1/2, E5 1/2, F5 1/2, G5 1/2, A5 3/2, - 3/2");
      case "octave-higher" -> line("4/4", "A5 1, C6 1, E6 1, G6 1, A6 1, B6 1, C7 1, A5 1");
      case "chord-symbols" -> chords();
      case "repeats-and-endings" -> repeats();
      case "grace-notes-and-keys" -> graces();
      case "phrase-among-neighbours" -> phrase();
      case "ties-short-and-dotted" -> line("4/4", "A4 5/4, C5 3/4, B4 7/2, D5 1/2, D5 2");
      case "seven-in-the-time-of-six" ->
          line("4/4", "C5 3/7, D5 3/7, E5 3/7, F5 3/7, E5 3/7, D5 3/7, C5 3/7, B4 1");
      case "three-graces-and-a-pickup" -> graceRun();
      case "thirty-seconds-by-eighths" ->
          line(
              "2/4",
              "C5 1/8, D5 1/8, E5 1/8, F5 1/8, G5 1/8, F5 1/8, E5 1/8, D5 1/8,"
                  + " C5 3/8, B4 1/8, A4 1/4, G4 1/8, A4 1/8, B4 2");
      case "accidentals-that-remind" -> line("4/4", "F#5 1, F4 1, F#5 1, Bb4 2, B4 1, F5 1, F5 1");
      default -> throw new IllegalArgumentException("Invalid score: " + name);
    };
  }

  private static SoloLine line(String metre, String notes) {
    return LineBuilder.solo(metre, Fraction.ZERO, notes);
  }

  private static SoloLine chords() {
    SoloLine line = line("4/4", "C5 2, D5 2, E5 4, F5 2, G5 2");
    return new SoloLine(
        line.bars(),
        List.of(
            new SoloLine.ChordSpan(Fraction.of(0), Fraction.of(2), "B\u266dmaj7"),
            new SoloLine.ChordSpan(Fraction.of(2), Fraction.of(3), "F\u266fm7(\u266d5)"),
            new SoloLine.ChordSpan(Fraction.of(3), Fraction.of(4), "N.C."),
            new SoloLine.ChordSpan(Fraction.of(4), Fraction.of(7), "C7(\u266f9 \u266d13)/E\u266d"),
            new SoloLine.ChordSpan(Fraction.of(7), Fraction.of(8), "A\u00f87"),
            new SoloLine.ChordSpan(Fraction.of(8), Fraction.of(12), "Gm(maj7)")),
        line.notes(),
        List.of(),
        List.of());
  }

  private static SoloLine repeats() {
    SoloLine line = line("4/4", "C5 4, D5 4, E5 4, F5 4");
    List<SoloLine.Staff> staffs =
        List.of(
            new SoloLine.Staff(-2, -2, "G2", true, false, null, false, false),
            new SoloLine.Staff(-2, -2, "G2", false, true, "1", true, false),
            new SoloLine.Staff(-2, -2, "G2", false, false, "2", true, true),
            new SoloLine.Staff(3, 3, "G2", false, false, null, false, false));
    return with(line, staffs, List.of(), List.of(), "A");
  }

  private static SoloLine graces() {
    SoloLine line = line("4/4", "C5 2, E5 2, G4 4");
    SoloLine.Staff written = new SoloLine.Staff(1, 3, "G2", false, false, null, false, false);
    return with(
        line,
        List.of(written, written),
        List.of(
            new SoloLine.GraceTone(0, "B4", "A4", true),
            new SoloLine.GraceTone(1, "D5", "C5", false),
            new SoloLine.GraceTone(1, "D#5", "C#5", false)),
        List.of(),
        null);
  }

  private static SoloLine graceRun() {
    SoloLine line = LineBuilder.solo("3/4", Fraction.of(2), "E5 1, C5 1, F#4 2");
    return with(
        line,
        List.of(PLAIN, PLAIN),
        List.of(
            new SoloLine.GraceTone(1, "Db5", "Db5", false),
            new SoloLine.GraceTone(1, "Ab4", "Ab4", false),
            new SoloLine.GraceTone(2, "E4", "E4", true)),
        List.of(),
        null);
  }

  private static SoloLine phrase() {
    SoloLine line =
        line("4/4", "C5 1, D5 1, - 1, E5 1/2, F5 1/2, G5 1, A5 1, G5 2, - 1, E5 1, D5 1, C5 1");
    return with(
        line,
        List.of(PLAIN, PLAIN, PLAIN),
        List.of(),
        List.of(
            new SoloLine.LandingMark(4, 1, "chord-arrival", "5", true),
            new SoloLine.LandingMark(6, 1, "phrase-end", "b9", false)),
        null);
  }

  private static SoloLine with(
      SoloLine line,
      List<SoloLine.Staff> staffs,
      List<SoloLine.GraceTone> graces,
      List<SoloLine.LandingMark> landings,
      String section) {
    List<SoloLine.BarSpan> bars = new ArrayList<>();
    for (SoloLine.BarSpan bar : line.bars()) {
      bars.add(
          new SoloLine.BarSpan(
              bar.index(),
              bar.number(),
              bar.exactOnset(),
              bar.exactLength(),
              bar.metre(),
              bar.offset(),
              bar.pickup(),
              bar.index() == 0 ? section : null,
              staffs.get(bar.index())));
    }
    List<SoloLine.PhraseSpan> phrases =
        landings.isEmpty()
            ? List.of()
            : List.of(new SoloLine.PhraseSpan(1, 2, 6, 3, 8, "1", "2", 1.25));
    return new SoloLine(bars, List.of(), line.notes(), phrases, landings, graces);
  }

  private static String drawn(String name) {
    Layout layout = Layout.narrow();
    if (name.equals("phrase-among-neighbours")) {
      layout = layout.focus(3, 8);
    }
    StringBuilder text = new StringBuilder();
    for (Engraving system : Engraver.engrave("s", score(name), null, layout)) {
      StringOutput output = new StringOutput();
      TEMPLATES.render("engraving.jte", Map.of("system", system), output);
      text.append(output.toString().replace("/><", "/>\n<").strip()).append('\n');
    }
    return text.toString();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "eighths-in-common-time",
        "pickup-and-rests",
        "accidentals",
        "ties-over-the-bar-line",
        "tuplets-within-a-tuplet",
        "sixteenths-and-dots",
        "waltz-in-the-bass",
        "compound-time",
        "octave-higher",
        "chord-symbols",
        "repeats-and-endings",
        "grace-notes-and-keys",
        "phrase-among-neighbours",
        "ties-short-and-dotted",
        "seven-in-the-time-of-six",
        "three-graces-and-a-pickup",
        "accidentals-that-remind",
        "thirty-seconds-by-eighths"
      })
  void aTinyScoreIsDrawnAsItWas(String name) throws IOException {
    Path golden = FOLDER.resolve(name + ".svg");
    if (UPDATE) {
      Files.createDirectories(FOLDER);
      Files.write(golden, drawn(name).getBytes(StandardCharsets.UTF_8));
    }

    assertThat(drawn(name))
        .isEqualTo(new String(Files.readAllBytes(golden), StandardCharsets.UTF_8));
  }

  @Test
  void continuousIntegrationDoesNotWriteThemAnew() {
    assertThat(UPDATE && System.getenv("CI") != null).isFalse();
  }
}
