package phrasecensus.music.likeness;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class LikenessSpaceTest {
  private static final List<PlacedSolo> SOLOS = InventedCorpus.solos();
  private static final LikenessSpace SPACE = LikenessSpace.of(SOLOS).orElseThrow();

  /** In Python from whole matrices (numpy 2.4.6, LedoitWolf of scikit-learn 1.9.1). */
  @Test
  void distancesAreWhitenedByHowSolosOfOnePlayerVary() {
    assertThat(distance(0, 20)).isCloseTo(1.0349642303064528, within(1e-9));
    assertThat(distance(4, 7)).isCloseTo(1.7411386304419627, within(1e-9));
    assertThat(SPACE.unlike()).isCloseTo(1.8155275538495257, within(1e-9));
    assertThat(SPACE.about()).isEqualTo(LikenessSpace.About.PLAYER);
  }

  private static double distance(int first, int second) {
    return SPACE
        .ofSolos(SOLOS.get(first).places(), SOLOS.get(second).places())
        .orElseThrow()
        .value();
  }

  @Test
  void aSoloIsNowhereNearerThanAtItself() {
    assertThat(distance(3, 3)).isZero();
    assertThat(distance(3, 4)).isEqualTo(distance(4, 3));
  }

  @Test
  void aStatisticThatOneOfTwoLacksIsNotShared() {
    LikenessSpace.Distance distance =
        SPACE.ofSolos(SOLOS.get(4).places(), SOLOS.get(7).places()).orElseThrow();

    assertThat(distance.shared()).isEqualTo(4);
    assertThat(distance.drivers())
        .extracting(LikenessSpace.Driver::statistic)
        .containsExactlyInAnyOrder(1, 3, 4, 5);
    assertThat(Math.abs(distance.drivers().get(0).difference()))
        .isGreaterThanOrEqualTo(Math.abs(distance.drivers().get(1).difference()));
  }

  @Test
  void twoThatShareTwoStatisticsHaveNoDistance() {
    double[] few = {0, 0, Double.NaN, Double.NaN, Double.NaN, Double.NaN};

    assertThat(SPACE.ofSolos(few, SOLOS.get(0).places())).isEmpty();
  }

  @Test
  void aConstantStatisticIsLeftOut() {
    List<PlacedSolo> still =
        SOLOS.stream()
            .map(
                solo -> {
                  double[] places = solo.places().clone();
                  places[5] = .1;
                  return new PlacedSolo(solo.soloId(), solo.player(), "", places);
                })
            .toList();
    double[] first = still.get(0).places().clone();
    first[5] = 7;

    assertThat(
            LikenessSpace.of(still)
                .orElseThrow()
                .ofSolos(first, still.get(1).places())
                .orElseThrow()
                .shared())
        .isEqualTo(5);
  }

  @Test
  void withoutPlayersSolosVaryAboutTheirGroupAndWithoutGroupsAboutTheCorpus() {
    assertThat(named("even", "odd").about()).isEqualTo(LikenessSpace.About.GROUP);
    assertThat(named("", "").about()).isEqualTo(LikenessSpace.About.CORPUS);
    assertThat(named("", "").unlike()).isNaN();
  }

  private static LikenessSpace named(String even, String odd) {
    return LikenessSpace.of(
            IntStream.range(0, SOLOS.size())
                .mapToObj(
                    i ->
                        new PlacedSolo(
                            SOLOS.get(i).soloId(),
                            "",
                            i % 2 == 0 ? even : odd,
                            SOLOS.get(i).places()))
                .toList())
        .orElseThrow();
  }

  @Test
  void twoSolosAreNoCorpus() {
    assertThat(LikenessSpace.of(SOLOS.subList(0, 2))).isEmpty();
    assertThat(LikenessSpace.of(List.of())).isEmpty();
  }
}
