package phrasecensus.music.phrase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.TempoChange;
import phrasecensus.music.time.Fraction;

/**
 * What the rule must hear on lines whose phrases nobody would doubt (common practice, no source).
 */
class BreathRuleTest {
  private static final PhraseRule RULE = BreathRule.DEFAULT;

  @Test
  void aBarOfRestBetweenRunsOfEighthsEndsAPhrase() {
    assertThat(RULE.boundaries(runs(4, 12, Fraction.of(2)))).containsExactly(12, 24, 36);
  }

  @Test
  void aSixteenthOfSilenceBetweenEighthsDoesNotWhereRestsTellThePhrases() {
    List<Note> notes = new ArrayList<>();
    for (Note note : runs(4, 12, Fraction.of(2)).notes()) {
      Fraction length = note.index() % 12 == 5 ? Fraction.of(1, 4) : Fraction.HALF;
      notes.add(Tunes.note(note.index(), note.onset(), length, note.midi(), Metre.of(4, 4)));
    }

    assertThat(RULE.boundaries(line(notes))).containsExactly(12, 24, 36);
  }

  @Test
  void aLongLineWithoutAnyRestIsStillDividedWhereItLiftsMost() {
    List<Note> notes = new ArrayList<>();
    for (int i = 0; i < 48; i++) {
      Fraction length = i % 16 == 15 ? Fraction.of(1, 4) : Fraction.HALF;
      notes.add(Tunes.note(i, Fraction.of(i, 2), length, 60 + i % 5, Metre.of(4, 4)));
    }

    assertThat(RULE.boundaries(line(notes))).containsExactly(16, 32);
  }

  @Test
  void longNotesEndPhrasesInASongWithoutRests() {
    // four phrases of two bars: eleven shorter notes and a half note each
    List<Note> notes = new ArrayList<>();
    Fraction at = Fraction.ZERO;
    for (int i = 0; i < 48; i++) {
      Fraction length = i % 12 == 11 ? Fraction.of(2) : i % 12 == 10 ? Fraction.ONE : Fraction.HALF;
      notes.add(Tunes.note(i, at, length, 60 + i * 5 % 7, Metre.of(4, 4)));
      at = at.plus(length);
    }

    assertThat(RULE.boundaries(line(notes))).containsExactly(12, 24, 36);
  }

  @ParameterizedTest
  @ValueSource(strings = {"7/8", "5/4", "2/2", "12/8", "free"})
  void aLineInAnyMetreOrNoneWithoutTempoOrChordsIsHeardAlike(String text) {
    Metre metre =
        text.equals("free")
            ? Metre.FREE
            : Metre.of(Integer.parseInt(text.split("/")[0]), Integer.parseInt(text.split("/")[1]));
    String run = "";
    for (Note note : runs(4, 12, Fraction.of(3)).notes()) {
      run += " " + note.onset() + ":1/2:" + note.midi();
    }

    assertThat(RULE.boundaries(Tunes.of(run, metre, List.of()))).containsExactly(12, 24, 36);
  }

  @ParameterizedTest(name = "{1}")
  @CsvSource({
    "'', no note",
    "0:1:60, one note",
    "7:1:60, one note after rests",
    "0:1:60 1:1:62, two notes",
    "0:1:60 1:1:60 2:1:60 3:1:60 4:1:60 5:1:60, six even repeated notes"
  })
  void aLineThatGivesNoCueIsOnePhrase(String line, String what) {
    for (Metre metre : List.of(Metre.of(4, 4), Metre.of(7, 8), Metre.FREE)) {
      assertThat(RULE.boundaries(Tunes.of(line, metre, List.of()))).as(what).isEmpty();
    }
  }

  @Test
  void aLongerSilenceNeverSpeaksAgainstABoundary() {
    for (Map.Entry<String, Double> number : BreathRule.DEFAULT.numbers().entrySet()) {
      for (BreathFeature feature : BreathFeature.values()) {
        if (number.getKey().endsWith(feature.word())) {
          assertThat(number.getValue() * feature.sign())
              .as(number.getKey())
              .isGreaterThanOrEqualTo(0);
        }
      }
    }
  }

  @Test
  void noSegmentationScoresBetterThanTheOneFound() {
    Map<String, Double> numbers = new LinkedHashMap<>(BreathRule.DEFAULT.numbers());
    numbers.put("length-weight", 0.7);
    numbers.put("preferred-beats", 3.0);
    numbers.put("expected-beats", 2.0);
    BreathRule rule = new BreathRule(numbers);
    for (long seed = 0; seed < 30; seed++) {
      BreathView view = new BreathView(Tunes.random(seed, 10));
      double[] logOdds = rule.logOdds(view);
      double found = score(rule, view, logOdds, rule.boundaries(view));

      for (int subset = 0; subset < 1 << 9; subset++) {
        List<Integer> boundaries = new ArrayList<>();
        for (int i = 1; i < 10; i++) {
          if ((subset >> (i - 1) & 1) == 1) {
            boundaries.add(i);
          }
        }
        assertThat(score(rule, view, logOdds, boundaries))
            .as("seed %s, boundaries %s", seed, boundaries)
            .isLessThanOrEqualTo(found + 1e-9);
      }
    }
  }

  @Test
  void settingsAreTheNumbersOfTheResource() {
    assertThat(RULE.settings().keySet()).containsExactlyElementsOf(BreathRule.numberNames());
  }

  @Test
  void rejectsALengthWeightBelowZero() {
    assertThatThrownBy(() -> PhraseRules.rule("breath", Map.of("length-weight", "-1")))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid length-weight: -1.0 is not zero or more");
  }

  /** The sum that the rule makes largest, straight from its description. */
  private static double score(
      BreathRule rule, BreathView view, double[] logOdds, List<Integer> boundaries) {
    Map<String, Double> numbers = rule.numbers();
    List<Integer> edges = new ArrayList<>(List.of(0));
    edges.addAll(boundaries);
    edges.add(view.notes);
    double sum = 0;
    for (int i = 1; i < edges.size(); i++) {
      int start = edges.get(i - 1);
      int end = edges.get(i);
      double octaves =
          Math.log((view.beats[end] - view.beats[start]) / numbers.get("preferred-beats"))
              / Math.log(2);
      double weight =
          numbers.get("length-weight")
              + view.withoutRests * numbers.get("length-weight-without-rests");
      sum -= weight * Math.min(9, octaves * octaves);
      if (end < view.notes) {
        sum += logOdds[end - 1] - numbers.get("threshold");
        if (view.placeInBar[start] == view.placeInBar[end]) {
          int bars = view.bar[end] - view.bar[start];
          sum += view.withoutRests * numbers.get("bar-bonus") * (bars % 2 == 0 ? 2 : 1);
        }
      }
    }
    return sum;
  }

  private static Solo runs(int runs, int notesInARun, Fraction rest) {
    List<Note> notes = new ArrayList<>();
    Fraction at = Fraction.ZERO;
    for (int i = 0; i < runs * notesInARun; i++) {
      if (i > 0 && i % notesInARun == 0) {
        at = at.plus(rest);
      }
      notes.add(Tunes.note(i, at, Fraction.HALF, 60 + i % 7, Metre.of(4, 4)));
      at = at.plus(Fraction.HALF);
    }
    return line(notes);
  }

  private static Solo line(List<Note> notes) {
    return Tunes.of(
        notes, Metre.of(4, 4), List.of(new TempoChange(Fraction.ZERO, 140)), List.of(), List.of());
  }
}
