package phrasecensus.music.pattern;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.phrase.Phrase;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Note;
import phrasecensus.music.statistic.Heard;
import phrasecensus.music.time.Fraction;

/** Held against the plain count of {@link IntervalPatterns}; invented lines. */
class SoloPatternsTest {
  @Test
  void packedCountsAreThoseOfThePlainCount() {
    for (long seed = 0; seed < 40; seed++) {
      SoloAnalysis heard = random(seed);
      SoloPatterns patterns = patterns(heard);
      for (int length = 3; length <= 8; length++) {
        IntervalPatterns pitch = IntervalPatterns.byPitch(heard, length);
        assertThat(counts(patterns, length, false)).as("seed %s", seed).isEqualTo(counts(pitch));
        assertThat(counts(patterns, length, true))
            .as("seed %s", seed)
            .isEqualTo(counts(IntervalPatterns.byPitchAndRhythm(heard, length)));
        assertThat(patterns.windows(length, false)).isEqualTo(pitch.windows());
        assertThat(patterns.windows(length, true))
            .isEqualTo(pitch.withoutRunsAndRepetitions().windows());
      }
    }
  }

  private static Map<IntervalPattern, Integer> counts(IntervalPatterns patterns) {
    Map<IntervalPattern, Integer> counts = new HashMap<>();
    patterns.places().forEach((pattern, places) -> counts.put(pattern, places.size()));
    return counts;
  }

  private static Map<IntervalPattern, Integer> counts(
      SoloPatterns patterns, int length, boolean rhythm) {
    Map<IntervalPattern, Integer> counts = new HashMap<>();
    patterns
        .occurrences()
        .forEach(
            (pattern, found) -> {
              if (pattern.length() == length && pattern.hasRhythm() == rhythm) {
                assertThat(pattern.isRunOrRepetition())
                    .isEqualTo(pattern.unpacked().isRunOrRepetition());
                counts.put(pattern.unpacked(), found.count());
              }
            });
    return counts;
  }

  @ParameterizedTest(name = "{0} quarters after one: told {1}")
  @CsvSource({"16, true", "1/16, true", "17, false", "1/17, false", "15/16, true"})
  void ratiosUpToSixteenAreTold(String second, boolean told) {
    Fraction one = Fraction.ONE;
    Fraction two = one.plus(Fraction.parse(second));
    SoloPatterns patterns = new SoloPatterns();
    patterns.add(
        new int[] {60, 62, 64, 65},
        new Fraction[] {Fraction.ZERO, one, two, two.plus(Fraction.parse(second))},
        5);

    assertThat(patterns.windows(3, false)).isEqualTo(1);
    assertThat(patterns.occurrences().keySet().stream().filter(PackedPattern::hasRhythm).count())
        .isEqualTo(told ? 1 : 0);
    assertThat(patterns.occurrences().values())
        .allMatch(found -> found.count() == 1 && found.firstNote() == 5);
  }

  @Test
  void intervalsBeyondFiveOctavesCountAsTheWidest() {
    SoloPatterns patterns = new SoloPatterns();
    Fraction[] onsets = new Fraction[4];
    for (int i = 0; i < 4; i++) {
      onsets[i] = Fraction.of(i);
    }
    patterns.add(new int[] {0, 127, 0, 63}, onsets, 0);

    assertThat(patterns.occurrences().keySet().iterator().next().unpacked().intervals())
        .isEqualTo(List.of(63, -63, 63));
  }

  @Test
  void threeNotesHaveNoPattern() {
    assertThat(patterns(Heard.inC("0:C4:1 1:D4:1 2:E4:1", "")).occurrences()).isEmpty();
  }

  private static SoloPatterns patterns(SoloAnalysis heard) {
    SoloPatterns patterns = new SoloPatterns();
    for (Phrase phrase : heard.phrases()) {
      List<Note> notes = heard.solo().notes().subList(phrase.firstNote(), phrase.lastNote() + 1);
      patterns.add(
          notes.stream().mapToInt(Note::midi).toArray(),
          notes.stream().map(Note::onset).toArray(Fraction[]::new),
          phrase.firstNote());
    }
    return patterns;
  }

  private static SoloAnalysis random(long seed) {
    Random random = new Random(seed);
    String[] names = {"C", "C#", "D", "Eb"};
    Fraction[] lengths = {Fraction.HALF, Fraction.ONE, Fraction.of(1, 3)};
    StringBuilder text = new StringBuilder();
    Fraction at = Fraction.ZERO;
    Integer[] starts = {4 + random.nextInt(10), 20 + random.nextInt(10)};
    for (int i = 0; i < 60; i++) {
      Fraction length = lengths[random.nextInt(lengths.length)];
      text.append(at).append(':').append(names[random.nextInt(4)]).append("4:").append(length);
      text.append(' ');
      at = at.plus(length);
    }
    return Heard.inC(SoloText.solo(Metre.of(4, 4), 20, text.toString(), ""), starts);
  }
}
