package phrasecensus.music.statistic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.score.Metre;
import phrasecensus.music.time.Fraction;

/**
 * Levels of metre as in Lerdahl and Jackendoff (1983) and Longuet-Higgins and Lee (1984), from
 * memory; the odd metres and the triplets are our own convention.
 */
class MetricalGridTest {
  @ParameterizedTest(name = "{2} slots of {0}/{1} weigh {3}")
  @CsvSource({
    "4, 4, 8, 0 -3 -2 -3 -1 -3 -2 -3",
    "4, 4, 16, 0 -4 -3 -4 -2 -4 -3 -4 -1 -4 -3 -4 -2 -4 -3 -4",
    "3, 4, 6, 0 -2 -1 -2 -1 -2",
    "2, 4, 4, 0 -2 -1 -2",
    "2, 2, 4, 0 -2 -1 -2",
    "6, 8, 6, 0 -2 -2 -1 -2 -2",
    "12, 8, 12, 0 -3 -3 -2 -3 -3 -1 -3 -3 -2 -3 -3",
    "9, 8, 9, 0 -2 -2 -1 -2 -2 -1 -2 -2",
    "5, 4, 10, 0 -2 -1 -2 -1 -2 -1 -2 -1 -2",
    "7, 8, 7, 0 -1 -1 -1 -1 -1 -1",
    "1, 4, 4, 0 -2 -1 -2"
  })
  void placesOfABarHaveTheirWeight(int beats, int beatType, int slots, String expected) {
    Metre metre = Metre.of(beats, beatType);
    MetricalGrid grid = new MetricalGrid(metre);

    String weights =
        IntStream.range(0, slots)
            .mapToObj(
                slot ->
                    Integer.toString(
                        grid.weight(metre.barLength().times(Fraction.of(slot, slots)))))
            .collect(Collectors.joining(" "));

    assertThat(weights).isEqualTo(expected);
  }

  @ParameterizedTest(name = "place {0} of 4/4 weighs {1}")
  @CsvSource({"1/3, -3", "2/3, -3", "5/3, -3", "1/8, -5", "1/6, -5", "1/5, -5"})
  void tripletsWeighAsTheHalfBeatAndFinerPlacesLess(String place, int weight) {
    assertThat(new MetricalGrid(Metre.of(4, 4)).weight(Fraction.parse(place))).isEqualTo(weight);
  }

  @Test
  void freeMetreHasNoWeights() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new MetricalGrid(Metre.FREE))
        .withMessage("Cannot weigh places in a bar: no metre");
  }
}
