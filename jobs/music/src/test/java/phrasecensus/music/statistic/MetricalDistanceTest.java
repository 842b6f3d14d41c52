package phrasecensus.music.statistic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.time.Fraction;

/**
 * Values by R 4.2.2 from the definition of Gómez, Melvin, Rappaport and Toussaint (2005); that of
 * the son clave, 14/5, also stands in the manual of a general-purpose library.
 */
class MetricalDistanceTest {
  @ParameterizedTest(name = "onsets {0} to {1} have {2}")
  @CsvSource({
    "0 3/4 3/2 5/2 3, 4, 2.8",
    "0 1/2 1 3/2 2 5/2 3 7/2, 4, 1",
    "0 1/3 2/3 1, 2, 1.5",
    "0 1 2 3, 4, 0"
  })
  void onsetsHaveThePublishedValue(String onsets, String end, double expected) {
    List<Fraction> beats = Arrays.stream(onsets.split(" ")).map(Fraction::parse).toList();

    assertThat(MetricalDistance.weighted(beats, Fraction.parse(end)))
        .isCloseTo(expected, within(1e-9));
  }

  @ParameterizedTest(name = "from {0} to {1} adds {2}")
  @CsvSource({"1/2, 1, 2", "1/2, 3/2, 4", "1/2, 2, 4", "1/2, 9/4, 2", "3/4, 1, 4", "3/4, 2, 8"})
  void noteHeldOverOneBeatCountsTwice(String onset, String end, double expected) {
    assertThat(MetricalDistance.term(Fraction.parse(onset), Fraction.parse(end)))
        .isEqualTo(expected);
  }

  @Test
  void noNotesHaveNoDistance() {
    assertThat(MetricalDistance.weighted(List.of(), Fraction.ONE)).isNaN();
  }
}
