package phrasecensus.music.norm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import phrasecensus.music.norm.PermutationTest.Unit;

class PermutationTestTest {
  private static final double[] VALUES = {1.1, 2.3, 2.9, 3.4, 4.2, 2.5, 3.8, 4.6, 5.1, 6.0, 7.7};

  /**
   * Dealing out ranks in every way is the exact Mann-Whitney test: R 4.2.2, wilcox.test(X, Y, exact
   * = TRUE), p = 0.051948052 = 24 / 462.
   */
  @Test
  void completeDealOfRanksIsTheExactMannWhitneyTest() {
    PermutationTest test =
        PermutationTest.of(fiveAndSix(), Unit.SOLOS, PermutationTest.cliffsDelta(VALUES), 2000, 1);

    assertThat(test.complete()).isTrue();
    assertThat(test.deals()).isEqualTo(462);
    assertThat(test.observed()).isCloseTo(-0.73333333, within(1e-8));
    assertThat(test.pValue()).isCloseTo(0.051948052, within(1e-8));
  }

  @Test
  void randomDealsApproachTheCompleteOne() {
    PermutationTest complete =
        PermutationTest.of(
            fiveAndSix(), Unit.SOLOS, PermutationTest.differenceOfMeans(VALUES), 2000, 1);
    PermutationTest random =
        PermutationTest.of(
            fiveAndSix(), Unit.SOLOS, PermutationTest.differenceOfMeans(VALUES), 461, 1);

    assertThat(random.complete()).isFalse();
    assertThat(random.pValue()).isCloseTo(complete.pValue(), within(.03));
  }

  @Test
  void playersAreDealtWhole() {
    List<Cluster> solos = new ArrayList<>();
    double[] values = new double[12];
    for (int i = 0; i < 12; i++) {
      solos.add(new Cluster(i < 6 ? "a" : "b", "player " + i / 3, "solo " + i));
      values[i] = i / 3;
    }

    PermutationTest test =
        PermutationTest.of(solos, Unit.PLAYERS, PermutationTest.differenceOfMeans(values), 2000, 1);

    assertThat(test.units()).isEqualTo(4);
    assertThat(test.deals()).isEqualTo(6);
    assertThat(test.pValue()).isCloseTo(2 / 6.0, within(1e-12));
  }

  @Test
  void orderOfTheSolosDoesNotMatter() {
    List<Cluster> solos = new ArrayList<>();
    List<Cluster> turned = new ArrayList<>();
    double[] values = new double[40];
    double[] turnedValues = new double[40];
    Random random = new Random(6);
    for (int i = 0; i < 40; i++) {
      solos.add(new Cluster(i % 2 == 0 ? "a" : "b", "player " + i, "solo"));
      values[i] = Math.rint(random.nextGaussian() * 8) / 8;
      turned.add(0, solos.get(i));
      turnedValues[39 - i] = values[i];
    }

    PermutationTest test =
        PermutationTest.of(solos, Unit.PLAYERS, PermutationTest.differenceOfMeans(values), 999, 5);

    assertThat(
            PermutationTest.of(
                turned, Unit.PLAYERS, PermutationTest.differenceOfMeans(turnedValues), 999, 5))
        .isEqualTo(test);
  }

  @Test
  void equalGroupsGiveOne() {
    PermutationTest test =
        PermutationTest.of(
            fiveAndSix(), Unit.SOLOS, PermutationTest.differenceOfMeans(new double[11]), 2000, 1);

    assertThat(test.pValue()).isEqualTo(1);
  }

  @Test
  void refusesAPlayerOfBothGroups() {
    List<Cluster> solos = List.of(new Cluster("a", "Ada", "1"), new Cluster("b", "Ada", "2"));

    assertThatThrownBy(
            () ->
                PermutationTest.of(
                    solos, Unit.PLAYERS, PermutationTest.differenceOfMeans(new double[2]), 10, 1))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Cannot deal players: Ada is in both groups");
  }

  @Test
  void refusesOneGroup() {
    assertThatThrownBy(
            () ->
                PermutationTest.of(
                    List.of(new Cluster("a", "Ada", "1")),
                    Unit.SOLOS,
                    PermutationTest.differenceOfMeans(new double[1]),
                    10,
                    1))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Cannot deal solos into two groups: there are 1");
  }

  private static List<Cluster> fiveAndSix() {
    List<Cluster> solos = new ArrayList<>();
    for (int i = 0; i < 11; i++) {
      solos.add(new Cluster(i < 5 ? "a" : "b", "player " + (10 + i), "solo"));
    }
    return solos;
  }
}
