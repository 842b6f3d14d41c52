package phrasecensus.music.phrase;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/** What holds for every rule on every line. */
class PhraseRuleLawsTest {
  private static final int SEEDS = 40;

  static List<String> names() {
    return PhraseRules.names();
  }

  @ParameterizedTest
  @MethodSource("names")
  void everyNoteIsInExactlyOnePhrase(String name) {
    for (int seed = 0; seed < SEEDS; seed++) {
      Solo solo = Tunes.random(seed, 1 + seed * 7);
      int next = 0;
      for (Phrase phrase : PhraseRules.rule(name).phrases(solo)) {
        assertThat(phrase.firstNote()).as("seed %s", seed).isEqualTo(next);
        next = phrase.lastNote() + 1;
      }
      assertThat(next).as("seed %s", seed).isEqualTo(solo.notes().size());
    }
  }

  @ParameterizedTest
  @MethodSource("names")
  void transpositionLeavesThePhrases(String name) {
    PhraseRule rule = PhraseRules.rule(name);
    for (int seed = 0; seed < SEEDS; seed++) {
      int semitones = seed % 23 - 11;

      assertThat(rule.boundaries(Tunes.shifted(seed, 120, Fraction.ZERO, semitones)))
          .as("seed %s", seed)
          .isEqualTo(rule.boundaries(Tunes.random(seed, 120)));
    }
  }

  @ParameterizedTest
  @MethodSource("names")
  void barsOfRestBeforeTheLineLeaveThePhrases(String name) {
    PhraseRule rule = PhraseRules.rule(name);
    for (int seed = 0; seed < SEEDS; seed++) {
      assertThat(rule.boundaries(Tunes.shifted(seed, 120, Fraction.of(4L * seed), 0)))
          .as("seed %s", seed)
          .isEqualTo(rule.boundaries(Tunes.random(seed, 120)));
    }
  }

  @ParameterizedTest
  @MethodSource("names")
  void theSameSoloGivesTheSameBoundaries(String name) {
    for (int seed = 0; seed < SEEDS; seed++) {
      assertThat(PhraseRules.rule(name).boundaries(Tunes.random(seed, 90)))
          .as("seed %s", seed)
          .isEqualTo(PhraseRules.rule(name).boundaries(Tunes.random(seed, 90)));
    }
  }

  @ParameterizedTest
  @MethodSource("names")
  void aLineOfOneNoteIsOnePhraseAndALineOfNoneHasNone(String name) {
    PhraseRule rule = PhraseRules.rule(name);

    assertThat(rule.phrases(Tunes.of("0:1:60"))).hasSize(1);
    assertThat(rule.phrases(Tunes.of(""))).isEmpty();
  }

  @ParameterizedTest
  @MethodSource("names")
  void slashesEndAPhraseUnderEveryRule(String name) {
    Solo even = Tunes.of("0:1:60 1:1:62 4:1:60 5:1:62");
    var slashes = List.of(new phrasecensus.music.score.Span(Fraction.of(2), Fraction.of(4)));

    assertThat(PhraseRules.rule(name).boundaries(Tunes.withUnknownSpans(even, slashes)))
        .contains(2);
  }
}
