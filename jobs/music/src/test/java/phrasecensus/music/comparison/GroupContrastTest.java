package phrasecensus.music.comparison;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class GroupContrastTest {
  private static final double[] PRIOR = Correlation.prior(.2);

  private static GroupContrast of(double[] values, boolean[] first, int[] player) {
    double[] relative = new double[values.length];
    Arrays.fill(relative, 1);
    return GroupContrast.of(values, first, player, relative, PRIOR, 0, 7).orElseThrow();
  }

  private static boolean[] firsts(int firsts, int all) {
    boolean[] first = new boolean[all];
    Arrays.fill(first, 0, firsts, true);
    return first;
  }

  /** Eight players of two solos: of the 70 ways to deal them two are as far apart as this. */
  @Test
  void wholePlayersAreDealtWhereNobodyIsInBothGroups() {
    double[] values = new double[16];
    int[] player = new int[16];
    for (int i = 0; i < 16; i++) {
      values[i] = i + (i < 8 ? 0 : 100);
      player[i] = i / 2;
    }

    GroupContrast contrast = of(values, firsts(8, 16), player);

    assertThat(contrast.dealt()).isEqualTo(GroupContrast.Dealt.PLAYERS);
    assertThat(contrast.deals()).isEqualTo(70);
    assertThat(contrast.p()).isCloseTo(2 / 70.0, within(1e-12));
    assertThat(contrast.difference()).isCloseTo(-108, within(1e-9));
    assertThat(contrast.high()).isLessThan(0);
  }

  /**
   * One solo of each player and ranks for values: the exact Mann-Whitney test. R 4.2.2,
   * wilcox.test(c(1, 2, 3, 4, 5, 11), c(6, 7, 8, 9, 10, 12), exact = TRUE): W = 5, p = 0.0411255411
   * = 38 / 924.
   */
  @Test
  void dealingRanksOfPlayersWithOneSoloIsTheExactMannWhitneyTest() {
    double[] ranks = {1, 2, 3, 4, 5, 11, 6, 7, 8, 9, 10, 12};
    int[] player = {0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11};

    GroupContrast contrast = of(ranks, firsts(6, 12), player);

    assertThat(contrast.deals()).isEqualTo(924);
    assertThat(contrast.p()).isCloseTo(0.0411255411, within(1e-9));
  }

  /** Two players of three solos in either group: (6 choose 3) squared ways. */
  @Test
  void solosAreDealtWithinPlayersWhoAreInBoth() {
    double[] values = {1, 2, 1.5, 51, 52, 53, 11, 12, 11.5, 61, 62, 63};
    int[] player = {0, 0, 0, 1, 1, 1, 0, 0, 0, 1, 1, 1};

    GroupContrast contrast = of(values, firsts(6, 12), player);

    assertThat(contrast.dealt()).isEqualTo(GroupContrast.Dealt.SOLOS_OF_PLAYERS);
    assertThat(contrast.deals()).isEqualTo(20 * 20);
    // Only the groups themselves and their mirror are so far apart: players' levels do not count.
    assertThat(contrast.p()).isCloseTo(2 / 400.0, within(1e-12));
    assertThat(contrast.difference()).isCloseTo(-10, within(.5));
  }

  /**
   * Three players of three solos beside two of one and two of two, whose 7! deals are 210 of
   * players who are not equally sure. Computed in R 4.2.2 from the whole covariance matrix of 15
   * solos: the players' means divided by their standard deviations, the common mean projected out,
   * reflected by the matrix of Householder that takes its direction to that of equal parts, all
   * 5,040 permutations: 312 are as far apart.
   */
  @Test
  void playersWhoAreNotEquallySureAreDealtAfterTheyAreMadeSo() {
    int[] player = {0, 0, 0, 1, 1, 1, 2, 2, 2, 3, 4, 5, 5, 6, 6};
    double[] values = {3.1, 2.4, 2.9, 1.2, 2, 1.1, 2.6, 3.3, 2.2, .7, 1.9, .2, 1, 1.4, .6};

    GroupContrast contrast = of(values, firsts(9, 15), player);

    assertThat(contrast.correlation()).isCloseTo(0.247783233265, within(1e-11));
    assertThat(contrast.difference()).isCloseTo(1.31901343346, within(1e-10));
    assertThat(contrast.deals()).isEqualTo(210);
    assertThat(contrast.p()).isCloseTo(312 / 5040.0, within(1e-12));
    assertThat(contrast.low()).isNegative();
    assertThat(contrast.high()).isGreaterThan(1.31901343346);
  }

  /** Nothing hangs on the order in which solos and players come. */
  @Test
  void theOrderOfPlayersDoesNotMatter() {
    double[] values = {3.1, 2.4, 2.9, 1.2, 2, 1.1, 2.6, 3.3, 2.2, .7, 1.9, .2, 1, 1.4, .6};
    int[] player = {6, 6, 6, 2, 2, 2, 4, 4, 4, 0, 1, 3, 3, 5, 5};

    GroupContrast contrast = of(values, firsts(9, 15), player);

    assertThat(contrast.p()).isCloseTo(312 / 5040.0, within(1e-12));
  }

  /** Three beside three players can be dealt in 20 ways, so no p lies below a tenth. */
  @Test
  void noTestIsMadeWhereNoDealCouldBeRareEnough() {
    double[] values = new double[12];
    int[] player = new int[12];
    for (int i = 0; i < 12; i++) {
      values[i] = i * i;
      player[i] = i / 2;
    }

    GroupContrast contrast = of(values, firsts(6, 12), player);

    assertThat(contrast.isTested()).isFalse();
    assertThat(contrast.low()).isNaN();
    assertThat(contrast.high()).isNaN();
    assertThat(contrast.deals()).isZero();
    assertThat(contrast.difference()).isNegative();
  }

  @Test
  void theIntervalHoldsADifferenceExactlyWhenTakingItAwayLeavesNothingClear() {
    Random random = new Random(3);
    for (int round = 0; round < 40; round++) {
      int n = 24;
      double[] values = random.doubles(n).toArray();
      int[] player = new int[n];
      for (int i = 0; i < n; i++) {
        player[i] = round % 2 == 0 ? i / 2 : i % 9;
      }
      int[] numbered =
          Arrays.stream(player)
              .map(j -> (int) Arrays.stream(player).distinct().takeWhile(k -> k != j).count())
              .toArray();
      boolean[] first = firsts(11 + round % 2, n);
      GroupContrast contrast = of(values, first, numbered);
      double width = contrast.high() - contrast.low();
      for (double end : new double[] {contrast.low(), contrast.high()}) {
        for (double step : new double[] {-.01, .01}) {
          double supposed = end + step * width;
          double[] less = values.clone();
          for (int i = 0; i < n; i++) {
            less[i] -= first[i] ? supposed : 0;
          }
          boolean held = contrast.low() <= supposed && supposed <= contrast.high();
          assertThat(of(less, first, numbered).p() > .05).as("round " + round).isEqualTo(held);
        }
      }
    }
  }

  @Test
  void groupsOfFiveSolosOrWithoutAnyDifferenceAreNotContrasted() {
    double[] same = new double[14];
    int[] players = {0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13};
    double[] relative = new double[14];
    Arrays.fill(relative, 1);

    assertThat(GroupContrast.of(same, firsts(7, 14), players, relative, PRIOR, 0, 1)).isEmpty();
    same[3] = 1;
    assertThat(GroupContrast.of(same, firsts(5, 14), players, relative, PRIOR, 0, 1)).isEmpty();
    assertThat(GroupContrast.of(same, firsts(6, 14), players, relative, PRIOR, 0, 1)).isPresent();
  }
}
