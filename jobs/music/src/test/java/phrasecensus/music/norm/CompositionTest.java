package phrasecensus.music.norm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Mixes of classes. Values of R 4.2.2. */
class CompositionTest {
  private static final double[] P = {.5, .3, .2};
  private static final double[] Q = {.2, .3, .5};

  /** R: (KL(p|m) + KL(q|m)) / 2 to base 2, m = (p+q)/2, and its square root. */
  @Test
  void jensenShannonAgreesWithR() {
    JensenShannon difference = JensenShannon.of(P, Q);
    JensenShannon withZero =
        JensenShannon.of(new double[] {.6, .25, .1, .05}, new double[] {.4, .4, .2, 0});

    assertThat(difference.divergence()).isCloseTo(0.095815602, within(1e-8));
    assertThat(difference.distance()).isCloseTo(0.30954095, within(1e-8));
    assertThat(withZero.divergence()).isCloseTo(0.064378431, within(1e-8));
    assertThat(withZero.distance()).isCloseTo(0.25372905, within(1e-8));
  }

  @Test
  void mixesWithoutACommonClassAreOneApart() {
    JensenShannon difference = JensenShannon.of(new double[] {1, 0}, new double[] {0, 1});

    assertThat(difference.divergence()).isCloseTo(1, within(1e-12));
    assertThat(difference.distance()).isCloseTo(1, within(1e-12));
    assertThat(difference.contributions()).containsExactly(.5, .5);
  }

  @Test
  void classesAddUpToTheDivergenceAndEqualSharesAddNothing() {
    JensenShannon difference = JensenShannon.of(P, Q);

    assertThat(difference.contributions().stream().mapToDouble(Double::doubleValue).sum())
        .isCloseTo(difference.divergence(), within(1e-12));
    assertThat(difference.contributions().get(1)).isZero();
    assertThat(JensenShannon.of(P, P).divergence()).isZero();
  }

  @Test
  void countsAndSharesGiveTheSame() {
    assertThat(JensenShannon.of(new double[] {50, 30, 20}, Q).divergence())
        .isCloseTo(0.095815602, within(1e-8));
  }

  /** R: log(p) - mean(log(p)). */
  @Test
  void centredLogRatiosAgreeWithR() {
    assertThat(Composition.centredLogRatios(P))
        .containsExactly(new double[] {0.47570545, -0.035120172, -0.44058528}, within(1e-8));
  }

  /** R: sqrt(sum((clr(p) - clr(q))^2)). */
  @Test
  void aitchisonDistanceAgreesWithR() {
    assertThat(Composition.distance(P, Q)).isCloseTo(1.2958308, within(1e-7));
  }

  /** R: ifelse(z == 0, delta, z * (1 - delta)). */
  @Test
  void zeroReplacementAgreesWithR() {
    assertThat(Composition.withoutZeros(new double[] {.6, .3, .1, 0}, .005))
        .containsExactly(new double[] {.597, .2985, .0995, .005}, within(1e-12));
  }

  /** R: gm <- exp(colMeans(log(rbind(...)))); gm / sum(gm). */
  @Test
  void centreAgreesWithR() {
    assertThat(Composition.centre(List.of(P, Q, new double[] {.4, .4, .2})))
        .containsExactly(new double[] {0.36242522, 0.3499177, 0.28765708}, within(1e-8));
  }

  @Test
  void refusesAZeroWhereALogarithmIsTaken() {
    assertThatThrownBy(() -> Composition.distance(new double[] {1, 0}, new double[] {.5, .5}))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Cannot take the logarithm of a mix: part 2 is 0");
  }

  @Test
  void refusesWhatIsNoMix() {
    assertThatThrownBy(() -> JensenShannon.of(new double[] {0, 0}, Q))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Cannot make shares of a mix: its parts add up to 0.0");
    assertThatThrownBy(() -> JensenShannon.of(new double[] {.5, .5}, Q))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Cannot compare mixes of 2 and 3 classes");
    assertThatThrownBy(() -> Composition.closed(Double.NaN, 1))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid part of a mix: NaN");
  }
}
