package phrasecensus.music.phrase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * Worked examples: the gap and length programme after Temperley 2001 on a melody of ten notes,
 * computed in R 4.2.2 by the same recursion.
 */
class GroupingProgrammeRuleTest {
  @Test
  void preferringEightNotesCutsTheMelodyBeforeTheSixth() {
    var rule = new GroupingProgrammeRule(8, 1, 0, 200);
    var solo = Tunes.of(Tunes.M);

    assertThat(rule.boundaries(solo)).containsExactly(5);
    assertThat(rule.score(solo, List.of(5))).isCloseTo(3.1438562, within(1e-6));
  }

  @Test
  void preferringTenNotesStillCutsWhileLengthWeighsLittle() {
    var rule = new GroupingProgrammeRule(10, 1, 0, 200);
    var solo = Tunes.of(Tunes.M);

    assertThat(rule.boundaries(solo)).containsExactly(5);
    assertThat(rule.score(solo, List.of(5))).isCloseTo(2.5, within(1e-6));
  }

  @Test
  void preferringTenNotesKeepsTheMelodyWholeWhenLengthWeighsMuch() {
    var rule = new GroupingProgrammeRule(10, 4, 0, 200);
    var solo = Tunes.of(Tunes.M);

    assertThat(rule.boundaries(solo)).isEmpty();
    assertThat(rule.score(solo, List.of())).isCloseTo(0, within(1e-6));
  }

  @Test
  void noSegmentationScoresBetterThanTheOneFound() {
    for (long seed = 0; seed < 20; seed++) {
      var rule = new GroupingProgrammeRule(3, 1, seed % 2, 200);
      var solo = Tunes.random(seed, 10);
      double found = rule.score(solo, rule.boundaries(solo));

      for (int subset = 0; subset < 1 << 9; subset++) {
        List<Integer> boundaries = new ArrayList<>();
        for (int i = 1; i < 10; i++) {
          if ((subset >> (i - 1) & 1) == 1) {
            boundaries.add(i);
          }
        }
        assertThat(rule.score(solo, boundaries))
            .as("seed %s, boundaries %s", seed, boundaries)
            .isLessThanOrEqualTo(found + 1e-9);
      }
    }
  }

  @Test
  void aMetreBonusPrefersPhrasesThatBeginAtTheSamePlaceInTheBar() {
    // sixteen even quarters: nothing but the metre tells where to cut
    StringBuilder line = new StringBuilder();
    for (int i = 0; i < 16; i++) {
      line.append(i).append(":1:60 ");
    }
    var solo = Tunes.of(line.toString());

    assertThat(new GroupingProgrammeRule(4, 4, 1, 200).boundaries(solo)).containsExactly(4, 8, 12);
  }

  @Test
  void noPhraseIsLongerThanTheBound() {
    var rule = new GroupingProgrammeRule(14, 3, 0, 5);

    assertThat(rule.phrases(Tunes.random(1, 200)))
        .allSatisfy(phrase -> assertThat(phrase.noteCount()).isLessThanOrEqualTo(5));
  }
}
