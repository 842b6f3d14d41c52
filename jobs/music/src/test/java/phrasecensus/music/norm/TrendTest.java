package phrasecensus.music.norm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class TrendTest {
  /** 1 to 59: middle half 15 1/6 to 44 5/6, spread about 22. */
  private static final Norm NORM =
      Norms.of(
          IntStream.rangeClosed(1, 59)
              .mapToObj(i -> new NormValue("player " + i % 5, (double) i))
              .toList());

  /** Sen 1968: the median of the pairwise slopes, here of 1, 1, 1, 5/3, 2 and 3. */
  @Test
  void slopeIsTheMedianOfPairwiseSlopes() {
    Trend trend = Trend.of(daily(0, 1, 2, 5), NORM);

    assertThat(trend.slopePerDay()).isCloseTo(4 / 3.0, within(1e-12));
    assertThat(trend.change()).isCloseTo(3 * trend.slopePerDay(), within(1e-12));
  }

  /**
   * Hollander and Wolfe, "Nonparametric Statistical Methods", section on Theil's slope: with n = 5
   * the exact null distribution leaves one inversion count in 120 for the greatest statistic, so
   * the 95 % interval is from the least to the greatest slope (counts: OEIS A008302).
   */
  @Test
  void fiveDatesGiveTheWidestInterval() {
    Trend trend = Trend.of(daily(0, 1, 2, 3, 8), NORM);

    assertThat(trend.slopeInterval()).isEqualTo(new Interval(1, 5, .95));
  }

  @Test
  void fourDatesHaveNoInterval() {
    assertThat(Trend.of(daily(0, 1, 2, 3), NORM).slopeInterval()).isNull();
  }

  @Test
  void severalSolosADayCountAndMakeAnInterval() {
    List<DatedValue> values = new ArrayList<>();
    for (int day = 0; day < 3; day++) {
      for (int solo = 0; solo < 3; solo++) {
        values.add(new DatedValue(LocalDate.of(2025, 3, 1 + 7 * day), 2 * day + solo * .1));
      }
    }

    Trend trend = Trend.of(values, NORM);

    assertThat(trend.solos()).isEqualTo(9);
    assertThat(trend.dates()).isEqualTo(3);
    assertThat(trend.slopeInterval()).isNotNull();
    assertThat(trend.slopeInterval().lower()).isGreaterThan(0);
    assertThat(trend.movement()).isEqualTo(Movement.TOWARD_BAND);
  }

  @Test
  void twoDatesAreTooFewHoweverManySolos() {
    List<DatedValue> values = new ArrayList<>(daily(0, 9));
    values.addAll(daily(1, 8));

    Trend trend = Trend.of(values, NORM);

    assertThat(trend.movement()).isEqualTo(Movement.TOO_FEW_DATES);
    assertThat(trend.slopePerDay()).isNull();
    assertThat(trend.movement().words()).isEqualTo("too few dates to tell");
  }

  @Test
  void threeDatesUpwardsMoveTowardTheBand() {
    Trend trend = Trend.of(daily(-20, -5, 10), NORM);

    assertThat(trend.movement()).isEqualTo(Movement.TOWARD_BAND);
    assertThat(trend.restsOnDirectionAlone()).isTrue();
    assertThat(trend.distanceChange()).isCloseTo(-30, within(1e-9));
  }

  @Test
  void movingOnBeyondTheBandIsMovingAway() {
    assertThat(Trend.of(daily(40, 60, 80, 90, 100, 120), NORM).movement())
        .isEqualTo(Movement.AWAY_FROM_BAND);
  }

  @Test
  void upAndDownIsNoClearMovement() {
    assertThat(Trend.of(daily(-20, 10, -5), NORM).movement()).isEqualTo(Movement.NO_CLEAR_MOVEMENT);
    assertThat(Trend.of(daily(-9, 60, -5, 70, 2, 50, 1), NORM).movement())
        .isEqualTo(Movement.NO_CLEAR_MOVEMENT);
  }

  @Test
  void aSmallStepInOneDirectionIsNoClearMovement() {
    assertThat(Trend.of(daily(0, 1, 2), NORM).movement()).isEqualTo(Movement.NO_CLEAR_MOVEMENT);
  }

  @Test
  void wanderingInsideStaysInside() {
    assertThat(Trend.of(daily(20, 30, 40), NORM).movement()).isEqualTo(Movement.STAYED_INSIDE);
    assertThat(Trend.of(daily(20, 20, 20), NORM).movement()).isEqualTo(Movement.STAYED_INSIDE);
  }

  @Test
  void withoutABandThereIsASlopeButNoStatement() {
    Trend trend = Trend.of(daily(1, 2, 3), Norms.of(List.of()));

    assertThat(trend.movement()).isEqualTo(Movement.NO_NORM);
    assertThat(trend.slopePerDay()).isEqualTo(1);
  }

  @Test
  void orderOfTheSolosDoesNotMatter() {
    Random random = new Random(2);
    List<DatedValue> values = new ArrayList<>();
    for (int i = 0; i < 60; i++) {
      values.add(
          new DatedValue(
              LocalDate.of(2025, 1, 1).plusDays(random.nextInt(40)), random.nextGaussian()));
    }
    Trend trend = Trend.of(values, NORM);

    Collections.shuffle(values, random);

    assertThat(Trend.of(values, NORM)).isEqualTo(trend);
  }

  @Test
  void aFalseTrendIsRare() {
    Random random = new Random(8);
    int clear = 0;
    for (int round = 0; round < 2000; round++) {
      double[] values = random.doubles(8, -30, 0).toArray();
      clear += Trend.of(daily(values), NORM).slopeInterval().contains(0) ? 0 : 1;
    }

    assertThat(clear / 2000.0).isLessThan(.06);
  }

  @Test
  void refusesWhatIsNotANumber() {
    assertThatThrownBy(() -> new DatedValue(LocalDate.EPOCH, Double.NaN))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid value of a statistic: NaN");
  }

  private static List<DatedValue> daily(double... values) {
    return IntStream.range(0, values.length)
        .mapToObj(i -> new DatedValue(LocalDate.of(2025, 1, 1).plusDays(i), values[i]))
        .toList();
  }
}
