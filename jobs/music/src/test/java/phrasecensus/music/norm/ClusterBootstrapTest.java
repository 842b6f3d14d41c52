package phrasecensus.music.norm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import phrasecensus.music.norm.ClusterBootstrap.Draw;

class ClusterBootstrapTest {
  private static final double[] X5 = {2, 3, 5, 7, 11};
  private static final long SEED = 20;

  /** R: all 3125 resamples of mean(c(2,3,5,7,11)); sd, and quantile(th, c(.025,.975), type = 7). */
  @Test
  void completeEnumerationOfTheMeanAgreesWithR() {
    BootstrapDistribution distribution = solos(5).enumeration(ResampledStatistic.mean(X5));

    assertThat(distribution.replicates().size()).isEqualTo(3125);
    assertThat(distribution.expectation()).isCloseTo(5.6, within(1e-9));
    assertThat(distribution.standardError()).isCloseTo(1.4310835, within(1e-6));
    Interval interval = distribution.percentile(.95).orElseThrow();
    assertThat(interval.lower()).isCloseTo(3.0, within(1e-6));
    assertThat(interval.upper()).isCloseTo(8.6, within(1e-6));
  }

  /**
   * R: z0 = qnorm(mean(th < that)); a from the jackknife; pnorm of the levels; type-7 quantiles.
   */
  @Test
  void bcaOfTheMeanAgreesWithR() {
    BootstrapDistribution distribution = solos(5).enumeration(ResampledStatistic.mean(X5));

    assertThat(distribution.biasCorrection()).isCloseTo(-0.027676709, within(1e-6));
    assertThat(distribution.acceleration()).isCloseTo(0.04356402, within(1e-6));
    assertThat(distribution.bcaLevel(.025)).isCloseTo(0.031661011, within(1e-6));
    assertThat(distribution.bcaLevel(.975)).isCloseTo(0.9813387, within(1e-6));
    Interval interval = distribution.bca(.95).orElseThrow();
    assertThat(interval.lower()).isCloseTo(3.2, within(1e-6));
    assertThat(interval.upper()).isCloseTo(8.6, within(1e-6));
  }

  /** R: 27 resamples of solos A = (2,4), B = 3, C = (5,6,7); pooled mean, sorted. */
  @Test
  void pooledMeanOverWholeSolosAgreesWithR() {
    BootstrapDistribution distribution =
        solos(3)
            .enumeration(ResampledStatistic.ratio(new double[] {6, 3, 18}, new double[] {2, 1, 3}));

    assertThat(distribution.estimate()).isEqualTo(4.5);
    assertThat(distribution.expectation()).isCloseTo(4.3230159, within(1e-6));
    assertThat(counts(distribution))
        .isEqualTo(
            Map.of(
                "3.000000",
                8L,
                "4.285714",
                3L,
                "4.500000",
                6L,
                "4.800000",
                3L,
                "5.250000",
                3L,
                "5.571429",
                3L,
                "6.000000",
                1L));
  }

  /** R: the same, mean of the means of solos. */
  @Test
  void meanOfSoloMeansAgreesWithR() {
    BootstrapDistribution distribution =
        solos(3).enumeration(ResampledStatistic.mean(new double[] {3, 3, 6}));

    assertThat(distribution.expectation()).isCloseTo(4, within(1e-12));
    assertThat(counts(distribution))
        .isEqualTo(Map.of("3.000000", 8L, "4.000000", 12L, "5.000000", 6L, "6.000000", 1L));
  }

  @Test
  void randomReplicatesApproachTheEnumeration() {
    BootstrapDistribution distribution =
        solos(5).distributions(List.of(ResampledStatistic.mean(X5)), 20_000).get(0);

    assertThat(distribution.expectation()).isCloseTo(5.6, within(0.04));
    assertThat(distribution.standardError()).isCloseTo(1.4310835, within(0.03));
    assertThat(distribution.acceleration()).isCloseTo(0.04356402, within(1e-6));
  }

  @Test
  void orderOfTheSolosChangesNoDraw() {
    List<Cluster> clusters = new ArrayList<>();
    for (int i = 0; i < 30; i++) {
      clusters.add(new Cluster("", "player " + i % 6, "solo " + i));
    }
    int[] weights = ClusterBootstrap.of(clusters, SEED).weights(17);
    Map<Cluster, Integer> expected = new TreeMap<>();
    for (int i = 0; i < 30; i++) {
      expected.put(clusters.get(i), weights[i]);
    }
    Collections.shuffle(clusters, new Random(3));

    int[] shuffled = ClusterBootstrap.of(clusters, SEED).weights(17);

    for (int i = 0; i < 30; i++) {
      assertThat(shuffled[i]).isEqualTo(expected.get(clusters.get(i)));
    }
  }

  @Test
  void replicatesDoNotDependOnWhatWasDrawnBefore() {
    ClusterBootstrap bootstrap = solos(12);
    int[] late = bootstrap.weights(1999);

    bootstrap.weights(0);

    assertThat(bootstrap.weights(1999)).isEqualTo(late);
    assertThat(bootstrap.weights(1998)).isNotEqualTo(late);
  }

  @Test
  void eachGroupKeepsItsNumberOfSolos() {
    List<Cluster> clusters = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      clusters.add(new Cluster(i < 4 ? "a" : "b", "", "solo " + i));
    }

    int[] weights = ClusterBootstrap.of(clusters, Draw.SOLOS, SEED).weights(5);

    assertThat(Arrays.stream(weights, 0, 4).sum()).isEqualTo(4);
    assertThat(Arrays.stream(weights, 4, 12).sum()).isEqualTo(8);
  }

  @Test
  void sixPlayersAreDrawnWithAllTheirSolos() {
    ClusterBootstrap bootstrap = players(6);

    assertThat(bootstrap.draw()).isEqualTo(Draw.PLAYERS);
    for (int replicate = 0; replicate < 50; replicate++) {
      int[] weights = bootstrap.weights(replicate);
      for (int player = 0; player < 6; player++) {
        int[] solos = Arrays.copyOfRange(weights, 4 * player, 4 * player + 4);
        assertThat(solos).containsOnly(solos[0]);
      }
    }
  }

  @Test
  void fivePlayersAreDrawnAndThenTheirSolos() {
    ClusterBootstrap bootstrap = players(5);

    assertThat(bootstrap.draw()).isEqualTo(Draw.PLAYERS_THEN_SOLOS);
    boolean someoneMissing = false;
    boolean soloMissing = false;
    for (int replicate = 0; replicate < 50; replicate++) {
      int[] weights = bootstrap.weights(replicate);
      for (int player = 0; player < 5; player++) {
        int[] solos = Arrays.copyOfRange(weights, 4 * player, 4 * player + 4);
        int drawn = Arrays.stream(solos).sum();
        assertThat(drawn % 4).isZero();
        someoneMissing |= drawn == 0;
        soloMissing |= drawn > 0 && Arrays.stream(solos).anyMatch(weight -> weight == 0);
      }
    }
    assertThat(someoneMissing).isTrue();
    assertThat(soloMissing).isTrue();
  }

  @Test
  void twoPlayersAreTooFewToDraw() {
    assertThat(players(2).draw()).isEqualTo(Draw.SOLOS);
  }

  @Test
  void fewerThanTenSolosHaveNoInterval() {
    assertThat(solos(9).interval(ResampledStatistic.mean(new double[9]))).isEmpty();
    assertThat(solos(10).interval(ResampledStatistic.mean(new double[10]))).isPresent();
  }

  @Test
  void equalSolosHaveAnIntervalWithoutWidth() {
    double[] values = new double[12];
    Arrays.fill(values, .25);
    BootstrapDistribution distribution = solos(12).distribution(ResampledStatistic.mean(values));

    assertThat(distribution.percentile(.95)).contains(new Interval(.25, .25, .95));
    assertThat(distribution.expandedPercentile(.95)).contains(new Interval(.25, .25, .95));
    assertThat(distribution.bca(.95)).contains(new Interval(.25, .25, .95));
  }

  @Test
  void undefinedSolosAreLeftOutOfAMean() {
    double[] values = new double[12];
    for (int i = 0; i < 12; i++) {
      values[i] = i % 2 == 0 ? Double.NaN : i;
    }

    BootstrapDistribution distribution = solos(12).distribution(ResampledStatistic.mean(values));

    assertThat(distribution.estimate()).isEqualTo(6);
    assertThat(distribution.percentile(.95)).isPresent();
  }

  @Test
  void aShareThatIsMostlyUndefinedHasNoInterval() {
    double[] part = new double[12];
    double[] whole = new double[12];
    part[3] = 1;
    whole[3] = 2;

    BootstrapDistribution distribution =
        solos(12).distribution(ResampledStatistic.ratio(part, whole));

    assertThat(distribution.undefinedCount()).isGreaterThan(500);
    assertThat(distribution.percentile(.95)).isEmpty();
    assertThat(distribution.bca(.95)).isEmpty();
  }

  @Test
  void theExpandedIntervalIsTheWider() {
    BootstrapDistribution distribution =
        solos(12)
            .distribution(
                ResampledStatistic.mean(IntStream.range(0, 12).asDoubleStream().toArray()));
    Interval plain = distribution.percentile(.95).orElseThrow();
    Interval expanded = distribution.expandedPercentile(.95).orElseThrow();

    assertThat(expanded.lower()).isLessThan(plain.lower());
    assertThat(expanded.upper()).isGreaterThan(plain.upper());
  }

  @Test
  void medianOfReplicatesIsWeighted() {
    ResampledStatistic median = ResampledStatistic.quantile(new double[] {7, 1, 3}, .5);

    assertThat(median.of(new int[] {1, 1, 1})).isEqualTo(3);
    assertThat(median.of(new int[] {2, 0, 1})).isEqualTo(7);
    assertThat(median.of(new int[] {0, 0, 0})).isNaN();
  }

  @Test
  void refusesASoloThatIsThereTwice() {
    Cluster solo = new Cluster("", "Ada", "a.xml");

    assertThatThrownBy(() -> ClusterBootstrap.of(List.of(solo, solo), SEED))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Cannot resample: solo a.xml is there twice");
  }

  @Test
  void refusesToEnumerateManySolos() {
    assertThatThrownBy(() -> solos(8).enumeration(ResampledStatistic.mean(new double[8])))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage(
            "Cannot enumerate the resamples of 8 solos: at most 7 of one group, no players");
  }

  /** Players of four solos each. */
  private static ClusterBootstrap players(int players) {
    return ClusterBootstrap.of(
        IntStream.range(0, 4 * players)
            .mapToObj(i -> new Cluster("", "player " + i / 4, "solo " + i))
            .toList(),
        SEED);
  }

  private static ClusterBootstrap solos(int n) {
    return ClusterBootstrap.of(
        IntStream.range(0, n).mapToObj(i -> new Cluster("", "", "solo " + (100 + i))).toList(),
        Draw.SOLOS,
        SEED);
  }

  private static Map<String, Long> counts(BootstrapDistribution distribution) {
    return Arrays.stream(distribution.replicates().values())
        .boxed()
        .collect(
            Collectors.groupingBy(
                value -> String.format(java.util.Locale.ROOT, "%.6f", value),
                TreeMap::new,
                Collectors.counting()));
  }

  @Test
  void withFivePlayersOfAsManySolosTheIntervalOfAMeanIsStudentsOfTheirMeans() {
    // R: t.test(c(2,3,5,7,11))$conf.int is 1.1576878 and 10.0423122.
    double[] means = {2, 3, 5, 7, 11};
    List<Cluster> clusters = new ArrayList<>();
    double[] values = new double[20];
    for (int i = 0; i < values.length; i++) {
      clusters.add(new Cluster("", "player " + i % 5, "solo " + i));
      values[i] = means[i % 5] + (Math.floorDiv(i, 5) - 1.5);
    }

    Interval interval = ClusterBootstrap.of(clusters, SEED).meanInterval(values).orElseThrow();

    assertThat(interval.lower()).isCloseTo(1.1576878, within(1e-6));
    assertThat(interval.upper()).isCloseTo(10.0423122, within(1e-6));
  }

  @Test
  void theIntervalOfAMeanIsNeverNarrowerThanStudentsAndLeansWhereValuesLean() {
    double[] values = new double[20];
    for (int i = 0; i < values.length; i++) {
      values[i] = Math.exp(CounterRandom.of(3, i, 0).gaussian());
    }
    Sample sample = Sample.of(values);
    double squares = 0;
    for (double value : values) {
      squares += (value - sample.mean()) * (value - sample.mean());
    }
    // R: qt(.975, 19) is 2.093024.
    double half = 2.093024 * Math.sqrt(squares / 19 / 20);

    Interval interval = solos(20).meanInterval(values).orElseThrow();

    assertThat(sample.mean() - interval.lower()).isGreaterThan(half - 1e-6);
    assertThat(interval.upper() - sample.mean()).isGreaterThan(1.1 * half);
  }

  @Test
  void aMeanOfEqualValuesIsKnownAndOneOfUndefinedValuesIsNot() {
    double[] equal = new double[12];
    Arrays.fill(equal, .1);
    Interval interval = solos(12).meanInterval(equal).orElseThrow();
    assertThat(interval.lower()).isCloseTo(.1, within(1e-12));
    assertThat(interval.upper()).isCloseTo(.1, within(1e-12));
    Arrays.fill(equal, Double.NaN);
    assertThat(solos(12).meanInterval(equal)).isEmpty();
  }

  @Test
  void nineSolosHaveNoIntervalOfAMean() {
    assertThat(solos(9).meanInterval(new double[9])).isEmpty();
  }
}
