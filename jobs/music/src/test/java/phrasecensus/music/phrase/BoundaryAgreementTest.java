package phrasecensus.music.phrase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.phrase.BoundaryAgreement.FirstNote;
import phrasecensus.music.score.Metre;
import phrasecensus.music.time.Fraction;

/** Worked values: by hand where no source stands beside them. */
class BoundaryAgreementTest {
  private static final List<Integer> TRUTH = List.of(6, 12, 20);
  private static final List<Integer> FOUND = List.of(6, 13, 25);

  @Test
  void oneOfThreeBoundariesIsOnTheVeryNote() {
    var agreement = BoundaryAgreement.exact(TRUTH, FOUND, 30, FirstNote.NOT_COUNTED);

    assertThat(agreement.precision()).isCloseTo(1 / 3.0, within(1e-12));
    assertThat(agreement.recall()).isCloseTo(1 / 3.0, within(1e-12));
    assertThat(agreement.f1()).isCloseTo(1 / 3.0, within(1e-12));
  }

  @Test
  void twoOfThreeAreWithinOneNote() {
    var agreement = BoundaryAgreement.withinNotes(TRUTH, FOUND, 30, 1, FirstNote.NOT_COUNTED);

    assertThat(agreement.f1()).isCloseTo(2 / 3.0, within(1e-12));
  }

  @Test
  void theFirstNoteAddsOneAgreementWhenItCounts() {
    var agreement = BoundaryAgreement.exact(TRUTH, FOUND, 30, FirstNote.COUNTED);

    assertThat(agreement).isEqualTo(new BoundaryAgreement(4, 4, 2, 30));
    assertThat(agreement.f1()).isCloseTo(.5, within(1e-12));
  }

  @Test
  void eachBoundaryIsMatchedOnce() {
    var agreement =
        BoundaryAgreement.withinNotes(List.of(5), List.of(4, 5, 6), 10, 1, FirstNote.NOT_COUNTED);

    assertThat(agreement.matched()).isEqualTo(1);
  }

  @Test
  void halfABeatIsAnEighthInFourFourAndADottedEighthInSixEight() {
    String line = "0:1:60 3:1/4:62 15/4:1/4:64 6:1:65";
    var half = Fraction.HALF;

    assertThat(
            BoundaryAgreement.withinBeats(
                    List.of(1), List.of(2), Tunes.of(line), half, FirstNote.NOT_COUNTED)
                .matched())
        .isZero();
    assertThat(
            BoundaryAgreement.withinBeats(
                    List.of(1),
                    List.of(2),
                    Tunes.of(line, Metre.of(6, 8), List.of()),
                    half,
                    FirstNote.NOT_COUNTED)
                .matched())
        .isEqualTo(1);
  }

  /** R 4.2.2: {@code po <- (a+d)/n; pe <- ((a+b)*(a+c)+(c+d)*(b+d))/n^2; (po-pe)/(1-pe)}. */
  @ParameterizedTest
  @CsvSource({
    "20, 5, 10, 15, 0.4",
    "45, 15, 25, 15, 0.13043478",
    "25, 35, 5, 35, 0.25925926",
  })
  void kappaOfATwoByTwoTable(long both, long first, long second, long neither, double kappa) {
    assertThat(BoundaryAgreement.kappa(both, first, second, neither))
        .isCloseTo(kappa, within(1e-8));
    // the same table as boundaries: found 'both + first', true 'both + second'
    assertThat(
            new BoundaryAgreement(
                    both + second, both + first, both, both + first + second + neither)
                .kappa())
        .isCloseTo(kappa, within(1e-8));
  }

  @Test
  void twoEmptySetsAgree() {
    var agreement = BoundaryAgreement.exact(List.of(), List.of(), 12, FirstNote.NOT_COUNTED);

    assertThat(agreement.scores()).isEqualTo(new BoundaryAgreement.Scores(1, 1, 1, 1));
  }

  @Test
  void findingNothingOfSomethingScoresZero() {
    var agreement = BoundaryAgreement.exact(List.of(3), List.of(), 12, FirstNote.NOT_COUNTED);

    assertThat(agreement.precision()).isZero();
    assertThat(agreement.recall()).isZero();
    assertThat(agreement.f1()).isZero();
  }

  @Test
  void theMeanWeighsLinesAlikeAndThePoolWeighsBoundariesAlike() {
    var all = List.of(new BoundaryAgreement(1, 1, 1, 10), new BoundaryAgreement(3, 3, 0, 10));

    assertThat(BoundaryAgreement.mean(all).f1()).isCloseTo(.5, within(1e-12));
    assertThat(BoundaryAgreement.pooled(all).f1()).isCloseTo(.25, within(1e-12));
  }

  @Test
  void theGreedyMatchingIsALargestOne() {
    for (long seed = 0; seed < 300; seed++) {
      Random random = new Random(seed);
      List<Integer> truth = randomBoundaries(random);
      List<Integer> found = randomBoundaries(random);
      int tolerance = random.nextInt(4);

      long matched =
          BoundaryAgreement.withinNotes(truth, found, 20, tolerance, FirstNote.NOT_COUNTED)
              .matched();

      assertThat(matched)
          .as("seed %s: %s, %s within %s", seed, truth, found, tolerance)
          .isEqualTo(largestMatching(truth, found, tolerance));
    }
  }

  @Test
  void rejectsANegativeTolerance() {
    assertThatThrownBy(() -> BoundaryAgreement.withinNotes(TRUTH, FOUND, 30, -1, FirstNote.COUNTED))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid tolerance: -1 is below zero");
  }

  private static List<Integer> randomBoundaries(Random random) {
    List<Integer> boundaries = new ArrayList<>();
    for (int i = 1; i < 20; i++) {
      if (random.nextInt(4) == 0) {
        boundaries.add(i);
      }
    }
    return boundaries;
  }

  /** By the recursion over pairs, without any assumption on order of matching. */
  private static int largestMatching(List<Integer> truth, List<Integer> found, int tolerance) {
    int[][] best = new int[truth.size() + 1][found.size() + 1];
    for (int i = 1; i <= truth.size(); i++) {
      for (int j = 1; j <= found.size(); j++) {
        best[i][j] = Math.max(best[i - 1][j], best[i][j - 1]);
        if (Math.abs(truth.get(i - 1) - found.get(j - 1)) <= tolerance) {
          best[i][j] = Math.max(best[i][j], best[i - 1][j - 1] + 1);
        }
      }
    }
    return best[truth.size()][found.size()];
  }
}
