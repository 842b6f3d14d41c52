package phrasecensus.music.phrase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import phrasecensus.music.phrase.BreathTuning.Example;

/** Tuning on made-up lines whose phrases follow a rule that is known. */
class BreathTuningTest {
  @Test
  void findsTheBoundariesOfLinesInWhichEverySilenceOfABeatIsOne() {
    List<Example> examples = examples();

    BreathRule tuned = BreathTuning.tuned(examples);

    List<BoundaryAgreement> scored = new ArrayList<>();
    for (Example example : examples) {
      scored.add(
          BoundaryAgreement.exact(
              example.truth(),
              tuned.boundaries(example.solo()),
              example.solo().notes().size(),
              BoundaryAgreement.FirstNote.NOT_COUNTED));
    }
    assertThat(BoundaryAgreement.mean(scored).f1()).isGreaterThan(.95);
  }

  @Test
  void theSameExamplesGiveTheSameNumbers() {
    assertThat(BreathTuning.properties(BreathTuning.tuned(examples()), List.of("a", "b")))
        .isEqualTo(BreathTuning.properties(BreathTuning.tuned(examples()), List.of("a", "b")))
        .startsWith("# a\n# b\nthreshold = ");
  }

  @Test
  void crossValidationAnswersEveryExampleInItsPlace() {
    List<Example> examples = examples();

    assertThat(BreathTuning.crossValidated(examples, 4)).hasSameSizeAs(examples);
  }

  @Test
  void rejectsMoreFoldsThanPlayers() {
    assertThatThrownBy(() -> BreathTuning.crossValidated(examples(), 5))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Cannot divide 4 groups into 5 folds");
  }

  @Test
  void rejectsNoExample() {
    assertThatThrownBy(() -> BreathTuning.tuned(List.of()))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Cannot tune on no example");
  }

  private static List<Example> examples() {
    List<Example> examples = new ArrayList<>();
    SilenceRule truth = new SilenceRule(phrasecensus.music.time.Fraction.ONE);
    for (int seed = 0; seed < 16; seed++) {
      var solo = Tunes.random(seed, 150);
      examples.add(new Example("line " + seed, "player " + seed % 4, solo, truth.boundaries(solo)));
    }
    return examples;
  }
}
