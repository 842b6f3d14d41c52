package phrasecensus.music.norm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.apache.commons.statistics.inference.AlternativeHypothesis;
import org.apache.commons.statistics.inference.ContinuityCorrection;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Mann-Whitney, Cliff, Vargha-Delaney, Hodges-Lehmann, Kolmogorov-Smirnov, Wasserstein. R 4.2.2.
 */
class TwoSamplesTest {
  private static final Sample X = Sample.of(1.1, 2.3, 2.9, 3.4, 4.2);
  private static final Sample Y = Sample.of(2.5, 3.8, 4.6, 5.1, 6.0, 7.7);
  private static final Sample TIED_X = Sample.of(2, 2, 3, 4, 4, 6);
  private static final Sample TIED_Y = Sample.of(3, 4, 5, 6, 6, 8, 9);

  /** Hollander and Wolfe's permeability constants, as in R's help page of wilcox.test. */
  private static final Sample AT_TERM =
      Sample.of(.80, .83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, .73, 1.46);

  private static final Sample EARLIER = Sample.of(1.15, .88, .90, .74, 1.21);

  /** R: wilcox.test(X, Y, exact = TRUE, conf.int = TRUE). */
  @Test
  void exactMannWhitneyAgreesWithR() {
    MannWhitney test = MannWhitney.of(X, Y);

    assertThat(test.w()).isEqualTo(4);
    assertThat(test.pValue()).isCloseTo(0.051948052, within(1e-8));
  }

  /** R: the estimate and conf.int of wilcox.test(X, Y, exact = TRUE, conf.int = TRUE). */
  @Test
  void exactHodgesLehmannAgreesWithR() {
    HodgesLehmann shift = HodgesLehmann.of(X, Y);

    assertThat(shift.shift()).isCloseTo(-2.0, within(1e-8));
    assertThat(shift.interval().lower()).isCloseTo(-4.8, within(1e-8));
    assertThat(shift.interval().upper()).isCloseTo(0.4, within(1e-8));
  }

  /** R: W/(n*m); 2*W/(n*m) - 1. */
  @Test
  void deltaAndSuperiorityAgreeWithR() {
    assertThat(CliffsDelta.of(X, Y).probabilityOfSuperiority()).isCloseTo(0.13333333, within(1e-8));
    assertThat(CliffsDelta.of(X, Y).delta()).isCloseTo(-0.73333333, within(1e-8));
  }

  /** R: wilcox.test(X, Y, exact = FALSE), and with correct = FALSE; median(outer(X, Y, "-")). */
  @Test
  void tiedSamplesAgreeWithR() {
    MannWhitney corrected = MannWhitney.of(TIED_X, TIED_Y);
    MannWhitney uncorrected =
        MannWhitney.of(
            TIED_X, TIED_Y, AlternativeHypothesis.TWO_SIDED, ContinuityCorrection.DISABLED);

    assertThat(corrected.w()).isEqualTo(7.5);
    assertThat(corrected.pValue()).isCloseTo(0.059674486, within(1e-8));
    assertThat(uncorrected.pValue()).isCloseTo(0.050509766, within(1e-8));
    assertThat(CliffsDelta.of(TIED_X, TIED_Y).probabilityOfSuperiority())
        .isCloseTo(0.17857143, within(1e-8));
    assertThat(CliffsDelta.of(TIED_X, TIED_Y).delta()).isCloseTo(-0.64285714, within(1e-8));
    assertThat(HodgesLehmann.of(TIED_X, TIED_Y).shift()).isCloseTo(-2, within(1e-8));
  }

  /** R manual, wilcox.test(x, y, alternative = "g") on data of Hollander and Wolfe. */
  @Test
  void publishedExampleOfHollanderAndWolfe() {
    MannWhitney test =
        MannWhitney.of(
            AT_TERM, EARLIER, AlternativeHypothesis.GREATER_THAN, ContinuityCorrection.ENABLED);

    assertThat(test.w()).isEqualTo(35);
    assertThat(test.pValue()).isCloseTo(0.12720613, within(1e-8));
  }

  /** R: ks.test(X, Y); ks.test on the Hollander and Wolfe data. */
  @Test
  void kolmogorovSmirnovAgreesWithR() {
    KolmogorovSmirnov test = KolmogorovSmirnov.of(X, Y);
    KolmogorovSmirnov published = KolmogorovSmirnov.of(AT_TERM, EARLIER);

    assertThat(test.d()).isCloseTo(0.66666667, within(1e-8));
    assertThat(test.pValue()).isCloseTo(0.10822511, within(1e-8));
    assertThat(published.d()).isCloseTo(0.6, within(1e-8));
    assertThat(published.pValue()).isCloseTo(0.16583417, within(1e-8));
  }

  /** R: sum(abs(Fa(z[-n]) - Fb(z[-n])) * diff(z)) over the pooled sorted values z. */
  @Test
  void wassersteinAgreesWithR() {
    assertThat(Wasserstein.distance(X, Y)).isCloseTo(2.17, within(1e-12));
    assertThat(Wasserstein.distance(Sample.of(1, 2, 3), Sample.of(2, 4, 6)))
        .isCloseTo(2, within(1e-12));
    assertThat(Wasserstein.distance(Sample.of(0, 1, 3), Sample.of(5, 6, 8)))
        .isCloseTo(5, within(1e-12));
  }

  @Test
  void wassersteinOfShiftedSamplesIsTheShift() {
    assertThat(Wasserstein.distance(X, Sample.of(11.1, 12.3, 12.9, 13.4, 14.2)))
        .isCloseTo(10, within(1e-12));
    assertThat(Wasserstein.distance(X, X)).isZero();
  }

  @Test
  void fewerThanFiveOnASideHaveNoPValue() {
    Sample four = Sample.of(1, 2, 3, 4);

    assertThat(MannWhitney.of(four, Y).pValue()).isNull();
    assertThat(KolmogorovSmirnov.of(four, Y).pValue()).isNull();
    assertThat(KolmogorovSmirnov.of(four, Y).d()).isCloseTo(2 / 3.0, within(1e-12));
  }

  @Test
  void allEqualValuesShowNoDifference() {
    Sample equal = Sample.of(2, 2, 2, 2, 2, 2);

    assertThat(MannWhitney.of(equal, equal).pValue()).isEqualTo(1);
    assertThat(KolmogorovSmirnov.of(equal, equal).pValue()).isEqualTo(1);
    assertThat(CliffsDelta.of(equal, equal).delta()).isZero();
    assertThat(HodgesLehmann.of(equal, equal))
        .isEqualTo(new HodgesLehmann(0, new Interval(0, 0, .95)));
  }

  @Test
  void shiftIsTheMedianOfAllDifferences() {
    Random random = new Random(11);
    for (int round = 0; round < 300; round++) {
      double[] x = random.doubles(1 + random.nextInt(12), -3, 3).map(v -> grain(v, 4)).toArray();
      double[] y = random.doubles(1 + random.nextInt(12), -3, 3).map(v -> grain(v, 4)).toArray();
      double expected =
          Sample.of(Arrays.stream(x).flatMap(a -> Arrays.stream(y).map(b -> a - b)).toArray())
              .median();

      assertThat(HodgesLehmann.of(Sample.of(x), Sample.of(y)).shift())
          .as("round %s", round)
          .isEqualTo(expected);
    }
  }

  @Test
  void shiftOfHugeSamplesIsFoundWithoutAllDifferences() {
    double[] x = IntStream.range(0, 100_000).asDoubleStream().toArray();
    double[] y = IntStream.range(7, 100_007).asDoubleStream().toArray();

    HodgesLehmann shift = HodgesLehmann.of(Sample.of(x), Sample.of(y));

    assertThat(shift.shift()).isEqualTo(-7);
    assertThat(shift.interval().contains(-7)).isTrue();
  }

  @Test
  void twoAgainstTwoHaveNoInterval() {
    assertThat(HodgesLehmann.of(Sample.of(1, 2), Sample.of(3, 4)).interval()).isNull();
  }

  @ParameterizedTest(name = "seed {0}")
  @CsvSource({"1", "2", "3"})
  void clusteredErrorOfDeltaIsTheSpreadOverRepeatedDraws(int seed) {
    Random random = new Random(seed);
    int rounds = 400;
    double sum = 0;
    double squares = 0;
    double errors = 0;
    for (int round = 0; round < rounds; round++) {
      CliffsDelta delta = CliffsDelta.ofClusters(solos(random, 10, 8, .5), solos(random, 30, 8, 0));
      sum += delta.delta();
      squares += delta.delta() * delta.delta();
      errors += delta.standardError() * delta.standardError();
    }
    double spread = Math.sqrt(squares / rounds - sum * sum / rounds / rounds);

    assertThat(Math.sqrt(errors / rounds)).isCloseTo(spread, within(.15 * spread));
  }

  @Test
  void clustersWidenTheIntervals() {
    Random random = new Random(4);
    List<double[]> x = solos(random, 10, 8, 0);
    List<double[]> y = solos(random, 30, 8, 0);
    List<double[]> alone =
        x.stream().flatMapToDouble(Arrays::stream).mapToObj(TwoSamplesTest::one).toList();
    List<double[]> others =
        y.stream().flatMapToDouble(Arrays::stream).mapToObj(TwoSamplesTest::one).toList();

    CliffsDelta clustered = CliffsDelta.ofClusters(x, y);
    CliffsDelta independent = CliffsDelta.ofClusters(alone, others);

    assertThat(clustered.delta()).isEqualTo(independent.delta());
    assertThat(clustered.standardError()).isGreaterThan(1.3 * independent.standardError());
    assertThat(width(HodgesLehmann.ofClusters(x, y).interval()))
        .isGreaterThan(1.3 * width(HodgesLehmann.ofClusters(alone, others).interval()));
  }

  @Test
  void completeSeparationStillHasAnInterval() {
    List<double[]> low = List.of(one(1), one(2), one(3), one(4), one(5), one(6));
    List<double[]> high = List.of(one(11), one(12), one(13), one(14), one(15), one(16));

    CliffsDelta delta = CliffsDelta.ofClusters(high, low);

    assertThat(delta.delta()).isEqualTo(1);
    assertThat(delta.interval().upper()).isEqualTo(1);
    assertThat(delta.interval().lower()).isBetween(-.1, .5);
  }

  @Test
  void fewerThanThreeClustersHaveNoInterval() {
    CliffsDelta delta = CliffsDelta.ofClusters(List.of(one(3)), List.of(one(1), one(2)));

    assertThat(delta.delta()).isEqualTo(1);
    assertThat(delta.interval()).isNull();
    assertThat(HodgesLehmann.ofClusters(List.of(one(3)), List.of(one(1), one(2))))
        .isEqualTo(new HodgesLehmann(1.5, null));
  }

  @Test
  void theShiftHasAnIntervalFromFourClustersOn() {
    Random random = new Random(4);
    List<double[]> y = solos(random, 30, 8, 0);
    List<double[]> x = solos(random, 4, 20, 0);

    assertThat(HodgesLehmann.ofClusters(x, y).interval()).isNotNull();
    assertThat(HodgesLehmann.ofClusters(x.subList(0, 3), y).interval()).isNull();
    assertThat(CliffsDelta.ofClusters(x.subList(0, 3), y).interval()).isNotNull();
  }

  @Test
  void solosOfUnequalLengthWidenTheInterval() {
    Random random = new Random(9);
    List<double[]> y = solos(random, 30, 8, 0);
    List<double[]> equal = solos(random, 3, 30, 0);
    List<double[]> unequal =
        List.of(
            Arrays.copyOf(equal.get(0), 10),
            Arrays.copyOf(equal.get(1), 20),
            Arrays.copyOf(equal.get(2), 30));

    CliffsDelta.Placements fair =
        CliffsDelta.Placements.of(equal, CliffsDelta.pooled(equal), y, CliffsDelta.pooled(y));
    CliffsDelta.Placements rough =
        CliffsDelta.Placements.of(unequal, CliffsDelta.pooled(unequal), y, CliffsDelta.pooled(y));

    assertThat(fair.freedomX()).isCloseTo(2, within(1e-12));
    assertThat(fair.freedomY()).isCloseTo(29, within(1e-12));
    // 60² / (10² + 20² + 30²) - 1
    assertThat(rough.freedomX()).isCloseTo(3600 / 1400.0 - 1, within(1e-12));
  }

  @Test
  void refusesAnEmptySample() {
    assertThatThrownBy(() -> CliffsDelta.of(X, Sample.of()))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Cannot compare two samples: one is empty");
  }

  /** Solos with a level of their own (intraclass correlation one half), phrases around it. */
  private static List<double[]> solos(Random random, int solos, int phrases, double shift) {
    return IntStream.range(0, solos)
        .mapToObj(
            solo -> {
              double level = shift + random.nextGaussian();
              return IntStream.range(0, phrases)
                  .mapToDouble(phrase -> level + random.nextGaussian())
                  .toArray();
            })
        .toList();
  }

  private static double grain(double value, int parts) {
    return Math.rint(value * parts) / parts;
  }

  private static double[] one(double value) {
    return new double[] {value};
  }

  private static double width(Interval interval) {
    return interval.upper() - interval.lower();
  }

  @Test
  void theShiftOfAFewValuesAgainstManyIsTheMedianOfAllDifferences() {
    double[] few = new double[3];
    double[] many = new double[400];
    for (int i = 0; i < many.length; i++) {
      many[i] = CounterRandom.of(5, i, 0).index(50) / 4.0;
      few[i % 3] = CounterRandom.of(6, i, 0).gaussian();
    }
    double[] differences = new double[few.length * many.length];
    for (int i = 0; i < differences.length; i++) {
      differences[i] = few[i % 3] - many[i / 3];
    }
    double median = Sample.of(differences).median();

    assertThat(HodgesLehmann.of(Sample.of(few), Sample.of(many)).shift()).isEqualTo(median);
    assertThat(HodgesLehmann.of(Sample.of(many), Sample.of(few)).shift()).isEqualTo(-median);
  }
}
