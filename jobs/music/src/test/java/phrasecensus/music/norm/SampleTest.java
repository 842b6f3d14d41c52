package phrasecensus.music.norm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

class SampleTest {
  @Test
  void orderOfTheValuesDoesNotMatter() {
    assertThat(Sample.of(3, 1, 2)).isEqualTo(Sample.of(List.of(2.0, 3.0, 1.0)));
  }

  @Test
  void negativeZeroIsZero() {
    assertThat(Sample.of(-0.0)).isEqualTo(Sample.of(0.0));
  }

  @Test
  void meanOfEqualValuesIsThatValue() {
    double[] values = new double[49];
    Arrays.fill(values, 0.1);

    assertThat(Sample.of(values).mean()).isEqualTo(0.1);
  }

  @Test
  void countsValuesBelowAndUpTo() {
    Sample sample = Sample.of(1, 2, 2, 3);

    assertThat(sample.countBelow(2)).isEqualTo(1);
    assertThat(sample.countAtMost(2)).isEqualTo(3);
    assertThat(sample.countAtMost(0)).isZero();
    assertThat(sample.countBelow(9)).isEqualTo(4);
  }

  @Test
  void refusesWhatIsNotANumber() {
    assertThatThrownBy(() -> Sample.of(1, Double.NaN))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid value in a sample: NaN");
    assertThatThrownBy(() -> Sample.of(Arrays.asList(1.0, null)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid value in a sample: null");
  }

  @Test
  void hasNoMiddleWhenEmpty() {
    assertThatThrownBy(() -> Sample.of().median())
        .isInstanceOf(IllegalStateException.class)
        .hasMessage("Cannot give the median of a sample: it is empty");
  }
}
