package phrasecensus.music.norm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NormsTest {
  /** Least n of a 95 % distribution-free interval; R: 1 - p^n - (1-p)^n >= .95. */
  @ParameterizedTest(name = "{0} solos: {1}, {2} intervals")
  @CsvSource({
    "0, LIST_ONLY, 0", "1, LIST_ONLY, 0", "5, LIST_ONLY, 0", "6, MEDIAN, 1", "10, MEDIAN, 1",
    "11, QUARTILES, 3", "28, QUARTILES, 3", "29, DECILES, 5", "58, DECILES, 5", "59, FULL, 7"
  })
  void showsOnlyWhatTheNumberOfSolosCarries(int n, NormLevel level, int intervals) {
    Norm norm = Norms.of(solos(n));

    assertThat(norm.level()).isEqualTo(level);
    assertThat(norm.intervals()).hasSize(intervals);
    assertThat(norm.p50() != null).isEqualTo(n >= 6);
    assertThat(norm.p25() != null).isEqualTo(n >= 11);
    assertThat(norm.p75() != null).isEqualTo(n >= 11);
    assertThat(norm.p10() != null).isEqualTo(n >= 29);
    assertThat(norm.p90() != null).isEqualTo(n >= 29);
    assertThat(norm.p05() != null).isEqualTo(n >= 59);
    assertThat(norm.p95() != null).isEqualTo(n >= 59);
  }

  /** R: quantile(1:59, ..., type = 8); position n p + 1/3 + p/3 by Hyndman and Fan 1996. */
  @Test
  void quantilesAreOfTypeEight() {
    Norm norm = Norms.of(solos(59));

    assertThat(norm.p05()).isCloseTo(3.3, within(1e-9));
    assertThat(norm.p25()).isCloseTo(15 + 1 / 6.0, within(1e-9));
    assertThat(norm.p50()).isEqualTo(30);
    assertThat(norm.p95()).isCloseTo(56.7, within(1e-9));
    assertThat(norm.mean()).isEqualTo(30);
    assertThat(norm.medianAbsoluteDeviation()).isEqualTo(15);
    assertThat(norm.interval(.5).orElseThrow().lower()).isEqualTo(22);
    assertThat(norm.interval(.5).orElseThrow().upper()).isEqualTo(38);
  }

  /** R: qt(.975, c(2, 3, 4)) / qnorm(.975). */
  @ParameterizedTest(name = "{0} players: {1} times as much variance")
  @CsvSource({"3, 2.1952713", "4, 1.6237269", "5, 1.4165797", "6, 1", "9, 1"})
  void fewPlayersWithSeveralSolosWidenTheIntervalsOfQuantiles(int players, double factor) {
    List<NormValue> values =
        IntStream.range(0, 36)
            .mapToObj(
                i -> new NormValue("player " + i % players, (double) Math.floorDiv(i, players)))
            .toList();

    assertThat(Norms.designEffect(values)).isEqualTo(1);
    assertThat(Norms.widening(values)).isCloseTo(factor, within(1e-6));
  }

  @Test
  void playersOfOneSoloEachWidenNothing() {
    List<NormValue> values =
        IntStream.range(0, 5).mapToObj(i -> new NormValue("player " + i, (double) i)).toList();

    assertThat(Norms.widening(values)).isEqualTo(1);
  }

  @Test
  void undefinedValuesAreCountedApart() {
    List<NormValue> values = new ArrayList<>(solos(12));
    for (int i = 0; i < 12; i++) {
      values.add(new NormValue("silent", null));
    }

    Norm norm = Norms.of(values);

    assertThat(norm.n()).isEqualTo(12);
    assertThat(norm.undefinedCount()).isEqualTo(12);
    assertThat(norm.playerCount()).isEqualTo(6);
    assertThat(norm.dominantPlayer()).isNull();
  }

  @Test
  void noDefinedValueIsToldInWords() {
    Norm norm = Norms.of(List.of(new NormValue("Ada", null)));

    assertThat(norm.n()).isZero();
    assertThat(norm.min()).isNull();
    assertThat(norm.mean()).isNull();
    assertThat(norm.caution()).contains("No solo of this group has a value.");
  }

  @Test
  void moreThanHalfByOnePlayerNamesThePlayer() {
    List<NormValue> values = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      values.add(new NormValue(i < 7 ? "Ada" : "player " + i, (double) i));
    }

    Norm norm = Norms.of(values);

    assertThat(norm.dominantPlayer()).isEqualTo("Ada");
    assertThat(norm.dominantShare()).isCloseTo(7 / 12.0, within(1e-12));
    assertThat(norm.caution())
        .contains("This group is mostly Ada (7 of 12 solos): read it as that player's norm.");
  }

  @Test
  void exactlyHalfIsNotMoreThanHalf() {
    Norm norm =
        Norms.of(
            List.of(
                new NormValue("Ada", 1.0),
                new NormValue("Ada", 2.0),
                new NormValue("Ben", 3.0),
                new NormValue("Cy", 4.0)));

    assertThat(norm.dominantPlayer()).isNull();
    assertThat(norm.fewPlayers()).isFalse();
    assertThat(norm.caution()).isEmpty();
  }

  @Test
  void twoPlayersAreFew() {
    Norm norm = Norms.of(List.of(new NormValue("Ada", 1.0), new NormValue("Ben", 3.0)));

    assertThat(norm.fewPlayers()).isTrue();
    assertThat(norm.caution()).contains("This group has 2 players: read it as theirs.");
  }

  @Test
  void playersWithoutANameCountAsOne() {
    Norm norm = Norms.of(List.of(new NormValue(null, 1.0), new NormValue(" ", 3.0)));

    assertThat(norm.playerCount()).isEqualTo(1);
  }

  /** 1 + (10 - 1) ICC, and within players nothing differs: ICC 1, ten solos count as one. */
  @Test
  void solosOfAPlayerThatAreAllAlikeCountOnce() {
    List<NormValue> values = new ArrayList<>();
    for (int i = 0; i < 60; i++) {
      values.add(new NormValue("player " + i % 6, (double) (i % 6)));
    }

    Norm norm = Norms.of(values);

    assertThat(norm.designEffect()).isCloseTo(10, within(1e-9));
    assertThat(norm.level()).isEqualTo(NormLevel.FULL);
    assertThat(norm.interval(.5).orElseThrow().upperRank()).isGreaterThan(50);
    assertThat(norm.interval(.05)).isEmpty();
  }

  @Test
  void onePlayerOrOneSoloEachLeavesSolosIndependent() {
    assertThat(Norms.designEffect(List.of(new NormValue("Ada", 1.0), new NormValue("Ada", 2.0))))
        .isEqualTo(1);
    assertThat(Norms.designEffect(List.of(new NormValue("Ada", 1.0), new NormValue("Ben", 2.0))))
        .isEqualTo(1);
  }

  @Test
  void allEqualValuesHaveNoSpread() {
    List<NormValue> values = new ArrayList<>();
    for (int i = 0; i < 40; i++) {
      values.add(new NormValue("player " + i, 0.3));
    }

    Norm norm = Norms.of(values);

    assertThat(norm.p10()).isEqualTo(0.3);
    assertThat(norm.p90()).isEqualTo(0.3);
    assertThat(norm.mean()).isEqualTo(0.3);
    assertThat(norm.spread().isNone()).isTrue();
  }

  @Test
  void orderOfTheSolosDoesNotMatter() {
    Random random = new Random(5);
    List<NormValue> values = new ArrayList<>();
    for (int i = 0; i < 200; i++) {
      values.add(new NormValue("player " + i % 9, random.nextGaussian()));
    }
    Norm norm = Norms.of(values);

    Collections.shuffle(values, random);

    assertThat(Norms.of(values)).isEqualTo(norm);
  }

  @Test
  void refusesWhatIsNotANumber() {
    assertThatThrownBy(() -> new NormValue("Ada", Double.NaN))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid value of a statistic: NaN");
  }

  /** Values 1 to n by six players in turn. */
  private static List<NormValue> solos(int n) {
    return IntStream.rangeClosed(1, n)
        .mapToObj(i -> new NormValue("player " + i % 6, (double) i))
        .toList();
  }
}
