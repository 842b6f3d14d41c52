package phrasecensus.music.statistic;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.score.Metre;

/** Values by an independent R script from the definition of Longuet-Higgins and Lee (1984). */
class SyncopationTest {
  @ParameterizedTest(name = "{0} has {1}")
  @CsvSource({
    "10101010, 0",
    "11111111, 0",
    "10010000, 2",
    "01010101, 7",
    "10010010, 2",
    "10000001, 0",
    "1001001000101000, 4",
    "01000000, 3",
    "00000001, 3"
  })
  void repeatedBarOfFourFourHasTheValue(String pattern, int expected) {
    assertThat(Syncopation.longuetHigginsLee(Metre.of(4, 4), pattern)).isEqualTo(expected);
  }

  /** Worked by hand: the quarter on beat two holds through beat three of equal weight; 2 over 1. */
  @ParameterizedTest(name = "{2} in {0}/{1} has {3}")
  @CsvSource({"3, 4, 101000, 0", "3, 4, 100100, 1", "6, 8, 110000, 1", "5, 4, 0000000001, 2"})
  void otherMetresHaveTheirOwnWeights(int beats, int beatType, String pattern, int expected) {
    assertThat(Syncopation.longuetHigginsLee(Metre.of(beats, beatType), pattern))
        .isEqualTo(expected);
  }

  @Test
  void silentBarHasNoSyncopation() {
    assertThat(Syncopation.longuetHigginsLee(Metre.of(4, 4), List.of())).isZero();
  }
}
