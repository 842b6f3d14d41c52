package phrasecensus.music.likeness;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class AttributionTest {
  private static final List<PlacedSolo> SOLOS = InventedCorpus.solos();

  /**
   * The same corpus and model in Python, from whole matrices (numpy 2.4.6, LedoitWolf of
   * scikit-learn 1.9.1).
   */
  @ParameterizedTest
  @CsvSource({
    "0,  player 3, 4, 1.1265864107649062, 1.2747639150147763",
    "4,  player 1, 1, 0.6287643768094576, 0.6287643768094576",
    "7,  player 2, 1, 1.197498452091462,  1.197498452091462",
    "13, player 3, 1, 0.6878230259635345, 0.6878230259635345"
  })
  void givesASoloToThePlayerUnderWhomItIsMostProbable(
      int solo, String given, int place, double distance, double actualDistance) {
    Attribution.Answer answer = new Attribution(SOLOS).player(SOLOS.get(solo)).orElseThrow();

    assertThat(answer.given()).isEqualTo(given);
    assertThat(answer.place()).isEqualTo(place);
    assertThat(answer.isRight()).isEqualTo(place == 1);
    assertThat(answer.candidates()).isEqualTo(6);
    assertThat(answer.distance()).isCloseTo(distance, within(1e-9));
    assertThat(answer.actualDistance()).isCloseTo(actualDistance, within(1e-9));
  }

  @Test
  void aPlayerWithTwoSolosIsNotAskedFor() {
    List<PlacedSolo> fewer = new ArrayList<>(SOLOS);
    fewer.remove(0);

    assertThat(new Attribution(fewer).player(fewer.get(0))).isEmpty();
  }

  @Test
  void whatASoloSaysHasNoPartInItsOwnAnswer() {
    List<PlacedSolo> moved = new ArrayList<>(SOLOS);
    PlacedSolo first = SOLOS.get(0);
    moved.set(0, new PlacedSolo("solo-0", first.player(), "", SOLOS.get(20).places().clone()));

    Attribution.Answer answer = new Attribution(moved).player(moved.get(0)).orElseThrow();

    assertThat(answer.given()).isEqualTo(SOLOS.get(20).player());
  }

  @Test
  void aGroupIsAskedForWithoutThePlayersOwnSolos() {
    List<PlacedSolo> grouped = new ArrayList<>();
    for (PlacedSolo solo : SOLOS) {
      // Even players are of one group, far away in the first statistic; player 0 plays as the
      // others.
      boolean even = (solo.player().charAt(7) - '0') % 2 == 0;
      double[] places = solo.places().clone();
      places[0] += even && !solo.player().equals("player 0") ? 20 : 0;
      grouped.add(new PlacedSolo(solo.soloId(), solo.player(), even ? "far" : "near", places));
    }
    Attribution attribution = new Attribution(grouped);

    Map<PlacedSolo, Attribution.Answer> ofFirst = attribution.groups(grouped.subList(0, 3));
    assertThat(ofFirst).hasSize(3);
    assertThat(ofFirst.values()).allMatch(answer -> answer.given().equals("near"));
    assertThat(attribution.groups(grouped.subList(3, 7)).values())
        .isNotEmpty()
        .allMatch(Attribution.Answer::isRight);
  }

  @Test
  void aCorpusOfUnknownPlayersHasNoAnswers() {
    List<PlacedSolo> unknown =
        SOLOS.stream().map(solo -> new PlacedSolo(solo.soloId(), "", "a", solo.places())).toList();
    Attribution attribution = new Attribution(unknown);

    assertThat(attribution.player(unknown.get(0))).isEmpty();
    assertThat(attribution.groups(unknown.subList(0, 1))).isEmpty();
  }
}
