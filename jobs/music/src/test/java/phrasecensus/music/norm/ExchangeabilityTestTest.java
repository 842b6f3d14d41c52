package phrasecensus.music.norm;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.norm.ExchangeabilityTest.Group;

class ExchangeabilityTestTest {
  /** One more player of the same population is found odd one time in twenty, by definition. */
  @ParameterizedTest(name = "{0} players of {1} solos, {2} solos of the student, skewed: {3}")
  @CsvSource({
    "6, 8, 3, false",
    "8, 6, 3, true",
    "12, 3, 1, false",
    "20, 1, 1, false",
    "5, 12, 9, true",
    "4, 4, 3, false"
  })
  void oneMorePlayerIsSeldomOdd(int players, int solos, int studentSolos, boolean skewed) {
    Random random = new Random(31);
    DoubleUnaryOperator scale = skewed ? Math::exp : value -> value;
    int odd = 0;
    int rounds = 2000;
    for (int round = 0; round < rounds; round++) {
      List<NormValue> group = new ArrayList<>();
      for (int player = 0; player < players; player++) {
        double own = .6 * random.nextGaussian();
        for (int solo = 0; solo < solos; solo++) {
          group.add(
              new NormValue("p" + player, scale.applyAsDouble(own + .8 * random.nextGaussian())));
        }
      }
      double own = .6 * random.nextGaussian();
      double[] student = new double[studentSolos];
      for (int solo = 0; solo < studentSolos; solo++) {
        student[solo] = scale.applyAsDouble(own + .8 * random.nextGaussian());
      }
      odd += Group.of(group).orElseThrow().test(Sample.of(student)).pValue() <= .05 ? 1 : 0;
    }

    assertThat(odd / (double) rounds).isBetween(.005, .06);
  }

  @Test
  void aStudentFarOutsideIsOdd() {
    assertThat(Group.of(group(8, 6)).orElseThrow().test(Sample.of(9, 10, 11)).pValue())
        .isLessThan(.001);
    assertThat(Group.of(group(8, 6)).orElseThrow().test(Sample.of(-9, -10)).statistic())
        .isNegative();
  }

  @Test
  void theMiddleOfTheGroupIsNotOdd() {
    assertThat(Group.of(group(8, 6)).orElseThrow().test(Sample.of(0, .1)).pValue())
        .isGreaterThan(.5);
  }

  @Test
  void orderOfTheSolosDoesNotMatter() {
    List<NormValue> group = group(8, 6);
    ExchangeabilityTest test = Group.of(group).orElseThrow().test(Sample.of(1, 2));

    Collections.shuffle(group, new Random(4));

    assertThat(Group.of(group).orElseThrow().test(Sample.of(2, 1))).isEqualTo(test);
  }

  @Test
  void smallGroupsFewPlayersAndEqualValuesGiveNoTest() {
    assertThat(Group.of(group(5, 2))).isEmpty();
    assertThat(Group.of(group(2, 20))).isEmpty();
    List<NormValue> equal =
        Collections.nCopies(5, List.of(value("a", 1), value("b", 1), value("c", 1))).stream()
            .flatMap(List::stream)
            .toList();
    assertThat(Group.of(equal)).isEmpty();
  }

  @Test
  void mostlyEqualValuesStillGiveANumber() {
    List<NormValue> group = new ArrayList<>();
    for (int i = 0; i < 30; i++) {
      group.add(value("p" + i % 5, i < 28 ? 0 : i));
    }

    assertThat(Group.of(group).orElseThrow().test(Sample.of(-1)).pValue()).isBetween(0.0, 1.0);
  }

  @Test
  void refusesAStudentWithoutValues() {
    assertThatThrownBy(() -> Group.of(group(8, 6)).orElseThrow().test(Sample.of()))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Cannot compare a student: there is no value");
  }

  private static List<NormValue> group(int players, int solos) {
    Random random = new Random(12);
    List<NormValue> group = new ArrayList<>();
    for (int player = 0; player < players; player++) {
      double own = random.nextGaussian() / 2;
      for (int solo = 0; solo < solos; solo++) {
        group.add(value("p" + player, own + random.nextGaussian()));
      }
    }
    return group;
  }

  private static NormValue value(String player, double value) {
    return new NormValue(player, value);
  }

  /** Each player has one solo: once this took time by the square of the solos. */
  @Test
  void tenThousandPlayersOfOneSoloAreTestedAtOnce() {
    List<NormValue> group = new ArrayList<>();
    Random random = new Random(3);
    for (int i = 0; i < 10_000; i++) {
      group.add(new NormValue("p" + i, random.nextGaussian()));
    }

    assertTimeoutPreemptively(
        Duration.ofSeconds(10),
        () ->
            assertThat(Group.of(group).orElseThrow().test(Sample.of(1.96)).pValue())
                .isBetween(.04, .06));
  }
}
