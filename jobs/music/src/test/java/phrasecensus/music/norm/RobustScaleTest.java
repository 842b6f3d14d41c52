package phrasecensus.music.norm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import org.junit.jupiter.api.Test;
import phrasecensus.music.norm.RobustScale.Distance;
import phrasecensus.music.norm.RobustScale.Driver;
import phrasecensus.music.norm.RobustScale.Neighbour;

class RobustScaleTest {
  /** R: IQR(x10, type = 8) = 2.1666667, median 3.25. */
  private static final double UNIT = 2.1666667 / 1.349;

  private static final RobustScale SCALE =
      RobustScale.of(
          Map.of(
              "a", QuantilesTest.X10,
              "b", QuantilesTest.X10,
              "c", QuantilesTest.X10,
              "still", Sample.of(1, 1, 1)));

  @Test
  void scalesByMedianAndInterquartileRange() {
    assertThat(SCALE.scaled("a", 3.25)).contains(0.0);
    assertThat(SCALE.scaled("a", 8).orElseThrow()).isCloseTo(4.75 / UNIT, within(1e-6));
    assertThat(SCALE.scaled("still", 2)).isEmpty();
  }

  @Test
  void distanceIsTheMeanAbsoluteDifferenceAndNamesItsDrivers() {
    Distance distance =
        SCALE
            .distance(
                Map.of("a", 1.0, "b", 2.0, "c", 3.0, "still", 1.0),
                Map.of("a", 1.0, "b", 5.0, "c", 2.0, "still", 9.0))
            .orElseThrow();

    assertThat(distance.shared()).isEqualTo(3);
    assertThat(distance.value()).isCloseTo(4 / UNIT / 3, within(1e-6));
    assertThat(distance.drivers()).extracting(Driver::key).containsExactly("b", "c", "a");
    assertThat(distance.drivers().get(0).difference()).isCloseTo(-3 / UNIT, within(1e-6));
  }

  @Test
  void soloThatSharesLittleHasNoDistance() {
    assertThat(SCALE.distance(Map.of("a", 1.0, "b", 2.0), Map.of("a", 1.0, "b", 2.0))).isEmpty();
  }

  @Test
  void nearestComeFirstAndEqualOnesByName() {
    Map<String, Double> solo = Map.of("a", 1.0, "b", 2.0, "c", 3.0);

    assertThat(
            SCALE.nearest(
                solo,
                Map.of(
                    "far",
                    Map.of("a", 9.0, "b", 9.0, "c", 9.0),
                    "twin",
                    solo,
                    "also twin",
                    solo,
                    "odd",
                    Map.of("a", 1.0)),
                3))
        .extracting(Neighbour::solo)
        .containsExactly("also twin", "twin", "far");
  }
}
