package phrasecensus.music.comparison;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class HeldOutPlayerTest {
  private static final ShippedFigures PLAIN =
      new ShippedFigures(
          "invented",
          Scale.PLAIN,
          .2,
          .2,
          new TempoSlopes.Shipped(TempoSlopes.NONE, 0, 0, 0),
          new TempoScale(60, 300),
          12);

  private static ComparedSolo solo(String player, Double value, int n) {
    return new ComparedSolo(
        player + value, player, "", value == null ? Double.NaN : value, n, n, Double.NaN);
  }

  /** Twenty others of values 1 to 20, by five players. */
  private static List<ComparedSolo> others() {
    List<ComparedSolo> solos = new ArrayList<>();
    for (int i = 1; i <= 20; i++) {
      solos.add(solo("other " + i % 5, (double) i, 12));
    }
    return solos;
  }

  private static List<HeldOutPlayer> each(ComparedSolo... own) {
    List<ComparedSolo> solos = others();
    solos.addAll(List.of(own));
    return HeldOutPlayer.each(PLAIN, solos);
  }

  private static HeldOutPlayer own(ComparedSolo... own) {
    return each(own).stream()
        .filter(each -> each.player().equals("Ada Reed"))
        .findFirst()
        .orElseThrow();
  }

  /**
   * Type 8 of 1 to 20: the 5 % quantile at place 20 / 20 + 1/3 + 1/60 = 1.35, the 95 % one at 19 +
   * 1/3 + 19/60 = 19.65; in R 4.2.2, quantile(1:20, c(.05, .95), type = 8) gives 1.35 and 19.65.
   */
  @Test
  void solosOutsideTheBandOfTheOthersAreCounted() {
    HeldOutPlayer player =
        own(
            solo("Ada Reed", 1.34, 10),
            solo("Ada Reed", 1.36, 10),
            solo("Ada Reed", 19.64, 10),
            solo("Ada Reed", 19.66, 10));

    assertThat(player.solos()).isEqualTo(4);
    assertThat(player.below()).isEqualTo(1);
    assertThat(player.above()).isEqualTo(1);
    assertThat(player.side()).isZero();
    assertThat(player.value()).isCloseTo(10.5, within(1e-12));
  }

  /** The middle of 1 to 20. */
  @Test
  void aPlayersOwnSolosAreNoPartOfTheOthers() {
    assertThat(own(solo("Ada Reed", 90.0, 4)).others()).isCloseTo(10.5, within(1e-12));
  }

  @Test
  void theMedianOfAllSolosDecidesTheSide() {
    assertThat(own(solo("Ada Reed", 30.0, 4), solo("Ada Reed", 25.0, 4)).side()).isEqualTo(1);
    assertThat(own(solo("Ada Reed", -3.0, 4)).side()).isEqualTo(-1);
  }

  @Test
  void aValueOfTwoPhrasesIsNotCompared() {
    HeldOutPlayer player = own(solo("Ada Reed", 90.0, 2), solo("Ada Reed", 10.0, 3));

    assertThat(player.solos()).isEqualTo(1);
    assertThat(player.above()).isZero();
    assertThat(player.value()).isEqualTo(10);
  }

  @Test
  void aSoloWithoutAPlayersNameIsPassedOver() {
    assertThat(each(solo("", 90.0, 9), solo("Ada Reed", 10.0, 9)))
        .extracting(HeldOutPlayer::player)
        .containsExactly("Ada Reed");
  }

  /** r of m phrases is m / (m + 12), and 18 + 18 phrases make three quarters. */
  @Test
  void theStrengthIsTheDistanceTimesTheReliabilityOfSoManyPhrases() {
    HeldOutPlayer player = own(solo("Ada Reed", 1.0, 18), solo("Ada Reed", 1.5, 18));

    assertThat(player.distance()).isNegative();
    assertThat(player.strength()).isCloseTo(-player.distance() * .75, within(1e-12));
  }

  @Test
  void aPlayerWithTooLittleMusicOrNoValueIsLeftOut() {
    assertThat(each(solo("Ada Reed", 90.0, 2)))
        .extracting(HeldOutPlayer::player)
        .doesNotContain("Ada Reed");
    assertThat(each(solo("Ada Reed", null, 30)))
        .extracting(HeldOutPlayer::player)
        .doesNotContain("Ada Reed");
  }

  /** Against each of the others stand 16 solos and one of Ada Reed: fewer than twenty. */
  @Test
  void aPlayerAgainstWhomFewerThanTwentySolosStandIsLeftOut() {
    assertThat(each(solo("Ada Reed", 10.0, 4)))
        .extracting(HeldOutPlayer::player)
        .containsExactly("Ada Reed");
  }

  @Test
  void whereAllPlayersAreOneAsManyValuesLieOutsideAsExpected() {
    Random random = new Random(7);
    double outside = 0;
    double expected = 0;
    for (int round = 0; round < 200; round++) {
      List<ComparedSolo> solos = new ArrayList<>();
      for (int i = 0; i < 60; i++) {
        solos.add(solo("player " + i % 12, Math.exp(random.nextGaussian()), 12));
      }
      for (HeldOutPlayer player : HeldOutPlayer.each(PLAIN, solos)) {
        outside += player.below() + player.above();
        expected += player.solos() * player.expectedShare();
      }
    }

    // 12,000 values: the Monte-Carlo error is below .003.
    assertThat(outside / 12_000).isCloseTo(expected / 12_000, within(.01));
    assertThat(expected / 12_000).isBetween(.1, .12);
  }

  @Test
  void aPlayerOfAnotherMannerHasASmallPValue() {
    HeldOutPlayer far = own(solo("Ada Reed", 90.0, 9), solo("Ada Reed", 80.0, 9));
    HeldOutPlayer near = own(solo("Ada Reed", 9.0, 9), solo("Ada Reed", 11.0, 9));

    assertThat(far.pValue()).isLessThan(.01);
    assertThat(near.pValue()).isGreaterThan(.5);
  }
}
