package phrasecensus.report.picture;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class ScaleTest {
  @Test
  void endsAreRoundAndHoldEveryValue() {
    Scale scale = Scale.covering(List.of(1.3, 5.94, 11.5), 0, Double.POSITIVE_INFINITY);

    assertThat(scale.low()).isZero();
    assertThat(scale.high()).isEqualTo(15);
    assertThat(scale.ticks()).containsExactly(0.0, 5.0, 10.0, 15.0);
  }

  @Test
  void sharesStayBetweenNothingAndAll() {
    Scale scale = Scale.covering(List.of(0.97, 1.0), 0, 1);

    assertThat(scale.high()).isEqualTo(1);
    assertThat(scale.share(1)).isEqualTo(1);
  }

  @Test
  void oneValueAndNoValueHaveAScaleToo() {
    for (List<Double> values :
        List.of(List.<Double>of(), List.of(0.0), List.of(1.0), List.of(7.0))) {
      Scale scale = Scale.covering(values, 0, Double.POSITIVE_INFINITY);

      assertThat(scale.high()).isGreaterThan(scale.low());
      values.forEach(value -> assertThat(scale.share(value)).isBetween(0.0, 1.0));
    }
    assertThat(Scale.covering(List.of(1.0), 0, 1).high()).isEqualTo(1);
  }

  @Test
  void manyScalesHoldTheirValuesWithFewTicks() {
    Random dice = new Random(3);
    for (int i = 0; i < 2000; i++) {
      List<Double> values = new ArrayList<>();
      double size = Math.pow(10, dice.nextInt(7) - 3);
      for (int k = 0; k <= dice.nextInt(4); k++) {
        values.add(size * dice.nextDouble());
      }

      Scale scale = Scale.covering(values, 0, Double.POSITIVE_INFINITY);

      assertThat(scale.ticks()).as("case %d: %s", i, values).hasSizeBetween(2, 8);
      for (double value : values) {
        assertThat(value).as("case %d", i).isBetween(scale.low() - 1e-9, scale.high() + 1e-9);
      }
    }
  }

  @Test
  void placesAreWrittenShort() {
    assertThat(Mark.across(0.5)).isEqualTo("50%");
    assertThat(Mark.across(0.12345)).isEqualTo("12.35%");
    assertThat(Mark.across(0.1205)).isEqualTo("12.05%");
    assertThat(Mark.down(-10)).isEqualTo("-10");
    assertThat(Mark.down(7.25)).isEqualTo("7.3");
  }
}
