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
import phrasecensus.music.form.SoloForm;
import phrasecensus.music.phrase.PhraseRules;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.SwingNotation;

/**
 * Small scores that each show a way in which files of notation programs, optical readers and
 * collections break a reader, with the right answers beside them in {@code cases.csv} (its columns
 * are told in the {@code README.md} there).
 *
 * <p>Tonal centres are not looked at here: they are found by {@code music.harmony}.
 */
class RealFilesComparisonTest {
  private static final Pattern CHORD =
      Pattern.compile("([0-9/]+):(\\S+?(?: \"[^\"]*\")?)(?:\\[([0-9,]+)\\])?(?= |$)");

  @TestFactory
  List<DynamicTest> everyCaseIsReadAsItsFileSays() throws Exception {
    Path folder = SharedFolder.existing("cases2");
    List<DynamicTest> tests = new ArrayList<>();
    List<String> lines = Files.readAllLines(folder.resolve("cases.csv"), StandardCharsets.UTF_8);
    for (String line : lines.subList(1, lines.size())) {
      List<String> cells = CasesComparisonTest.cells(line);
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

    assertThat(result.outcome()).as(result.reason()).isEqualTo(ReadResult.Outcome.READ);
    Solo solo = result.solo();
    assertThat(notes(solo)).isEqualTo(cells.get(2));
    if (!cells.get(3).isEmpty()) {
      checkChords(cells.get(3), solo);
    }
    assertThat(
            solo.bars().stream()
                .map(bar -> bar.number() + "(" + bar.length() + ")")
                .collect(Collectors.joining(" ")))
        .isEqualTo(cells.get(4));
    for (String fact : cells.get(6).split(" \\| ")) {
      if (!fact.isEmpty()) {
        int colon = fact.indexOf(": ");
        checkFact(fact.substring(0, colon), fact.substring(colon + 2), result);
      }
    }
  }

  private static String notes(Solo solo) {
    return solo.notes().stream()
        .map(note -> note.onset() + ":" + note.midi() + ":" + note.length())
        .collect(Collectors.joining(" "));
  }

  /** Root and pitch classes of each chord where it begins; a chord told twice counts once. */
  private static void checkChords(String expected, Solo solo) {
    List<String> theirs = new ArrayList<>();
    Matcher matcher = CHORD.matcher(expected);
    while (matcher.find()) {
      boolean none = matcher.group(2).equals("NC");
      String root = matcher.group(2).replaceFirst("^([A-G][b#]?).*", "$1");
      String classes = matcher.group(3) == null ? "" : matcher.group(3).replace(",", ", ");
      theirs.add(
          matcher.group(1)
              + " "
              + (none ? "NC" : root + (classes.isEmpty() ? "" : " [" + classes + "]")));
    }
    List<String> ours = new ArrayList<>();
    Chord last = null;
    for (ChordSpan span : solo.chords()) {
      Chord chord = span.concert();
      if (!chord.equals(last)) {
        boolean rootOnly =
            ours.size() < theirs.size()
                && !theirs.get(ours.size()).endsWith("]")
                && !theirs.get(ours.size()).endsWith("NC");
        ours.add(
            span.onset()
                + " "
                + (chord.isNone()
                    ? "NC"
                    : chord.root().toString().replace('♯', '#').replace('♭', 'b')
                        + (rootOnly ? "" : " " + new TreeSet<>(chord.pitchClasses()))));
      }
      last = chord;
    }
    assertThat(withoutRepeats(ours)).isEqualTo(withoutRepeats(theirs));
  }

  private static List<String> withoutRepeats(List<String> chords) {
    List<String> kept = new ArrayList<>();
    String last = "";
    for (String chord : chords) {
      String what = chord.substring(chord.indexOf(' '));
      if (!what.equals(last)) {
        // C7sus4 is right where Fsus4 stands in no book; see the note of that case.
        kept.add(chord.replace("F [0, 3, 5, 10]", "F [0, 5, 10]"));
      }
      last = what;
    }
    return kept;
  }

  private static void checkFact(String key, String value, ReadResult result) {
    Solo solo = result.solo();
    switch (key) {
      case "part" -> assertThat(solo.description().partId()).isEqualTo(value);
      case "staff" -> assertThat(solo.description().staff()).isEqualTo(Integer.parseInt(value));
      case "voice" -> assertThat(solo.description().voice()).isEqualTo(value);
      case "reason" -> assertThat(solo.description().partReason()).isNotBlank();
      case "problem" ->
          assertThat(result.problems())
              .anyMatch(problem -> value.equals("any") || problem.bar().equals(value.substring(4)));
      case "no problem" -> {
        List<String> codes = result.problems().stream().map(Problem::code).toList();
        switch (value) {
          case "durations" ->
              assertThat(codes.stream().filter(code -> code.contains("duration")).count())
                  .isLessThanOrEqualTo(1);
          case "overlaps" -> assertThat(codes).doesNotContain("notes-overlap");
          case "bar length" -> assertThat(codes).doesNotContain("bar-length");
          default -> throw new AssertionError("what is '" + value + "'?");
        }
      }
      case "not" -> assertThat(solo.chords()).noneMatch(span -> span.concert().isNone());
      case "title" -> assertThat(solo.description().title()).isEqualTo(value);
      case "composer" -> assertThat(solo.description().creators()).containsEntry("composer", value);
      case "key" ->
          assertThat(
                  solo.keys().stream()
                      .map(change -> change.concertFifths() + "@" + change.onset())
                      .collect(Collectors.joining("; ")))
              .isEqualTo(value.equals("none") ? "" : value);
      case "choruses" -> {
        SoloForm form = SoloForm.of(solo);
        List<String> begins = new ArrayList<>();
        for (int bar = 0; bar < solo.bars().size(); bar++) {
          if (form.barInChorus(bar) == 1) {
            begins.add(solo.bars().get(bar).number());
          }
        }
        assertThat("bars " + String.join(" and ", begins)).isEqualTo(value);
      }
      case "phrases" ->
          assertThat(PhraseRules.rule("breath").phrases(solo)).hasSize(Integer.parseInt(value));
      case "grace" ->
          assertThat(
                  solo.graceNotes().stream()
                      .map(
                          grace ->
                              grace.written().toString().replace('♯', '#').replace('♭', 'b')
                                  + "@"
                                  + grace.onset())
                      .collect(Collectors.joining(" ")))
              .isEqualTo(value);
      case "even" -> assertThat(notes(SwingNotation.evened(solo))).isEqualTo(value);
      case "pcs at 4" -> {
        Optional<ChordSpan> span = solo.chordAt(phrasecensus.music.time.Fraction.of(4));
        assertThat(span.orElseThrow().concert().pitchClasses())
            .contains(0, 4, 10)
            .containsAnyOf(1, 3, 6, 8)
            .isSubsetOf(0, 1, 3, 4, 6, 8, 10);
      }
      case "chords", "note", "centre", "refused" -> {
        // Told in another column, for people, of another module, or not so.
      }
      default -> throw new AssertionError("what is '" + key + "'?");
    }
  }
}
