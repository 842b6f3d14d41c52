package phrasecensus.composer.line;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import phrasecensus.composer.cast.Commission;
import phrasecensus.composer.cast.Programme;

/**
 * Holds the corpus against figures of published solos. The bands are wide round figures computed
 * from the Weimar Jazz Database (456 solos, 1925-2009): per solo and from the 5th to the 95th
 * percentile, median phrase 0.8 to 4.4 bars, steps .39 to .71, all-tone chord share .37 to .63,
 * tones per bar 3.9 to 12.8; pooled, chord-tone endings .62 and off-beat starts .65.
 */
class CorpusLinesTest {
  private static final Map<String, List<LineStatistics>> BY_STYLE = new TreeMap<>();
  private static final List<Solo> SOLOS = new ArrayList<>();

  @BeforeAll
  static void compose() {
    for (Commission commission : Programme.corpus()) {
      Solo solo = commission.solo();
      SOLOS.add(solo);
      BY_STYLE
          .computeIfAbsent(commission.style().name(), style -> new ArrayList<>())
          .add(LineStatistics.of(solo));
    }
  }

  @Test
  void threeStylesHaveTwentySolosEach() {
    assertThat(BY_STYLE).hasSize(3);
    assertThat(BY_STYLE.values()).allSatisfy(solos -> assertThat(solos).hasSize(20));
  }

  @Test
  void linesAreLikePublishedOnesInEveryStyle() {
    BY_STYLE.forEach(
        (style, solos) -> {
          assertThat(mean(solos, LineStatistics::landingShare)).as(style).isBetween(0.60, 0.80);
          assertThat(mean(solos, LineStatistics::chordToneShare)).as(style).isBetween(0.50, 0.62);
          assertThat(mean(solos, LineStatistics::stepShare)).as(style).isBetween(0.45, 0.62);
          assertThat(mean(solos, LineStatistics::offbeatStartShare)).as(style).isBetween(0.5, 0.7);
          assertThat(mean(solos, LineStatistics::medianPhraseBars)).as(style).isBetween(1.7, 2.8);
          assertThat(mean(solos, LineStatistics::soundingShare)).as(style).isBetween(0.60, 0.80);
        });
  }

  @Test
  void stylesDifferInSpaceAndMovement() {
    double swing = mean(BY_STYLE.get("quayside swing"), LineStatistics::eighthShare);
    double bop = mean(BY_STYLE.get("headland bop"), LineStatistics::eighthShare);
    double bopDensity = mean(BY_STYLE.get("headland bop"), LineStatistics::tonesPerBar);
    double modalDensity = mean(BY_STYLE.get("tidal modal"), LineStatistics::tonesPerBar);
    double bopLeaps = mean(BY_STYLE.get("headland bop"), LineStatistics::leapShare);
    double modalLeaps = mean(BY_STYLE.get("tidal modal"), LineStatistics::leapShare);

    assertThat(bop - swing).isGreaterThan(0.12);
    assertThat(bopDensity - modalDensity).isGreaterThan(1.5);
    assertThat(modalLeaps - bopLeaps).isGreaterThan(0.05);
  }

  @Test
  void everySoloHasPhrasesToStudyAndRoomToBreathe() {
    for (Solo solo : SOLOS) {
      LineStatistics statistics = LineStatistics.of(solo);
      assertThat(solo.bars()).as(solo.tune().title()).isBetween(24, 72);
      assertThat(statistics.phrases()).as(solo.tune().title()).isGreaterThanOrEqualTo(5);
      assertThat(statistics.longestSeconds()).as(solo.tune().title()).isLessThan(14);
    }
  }

  @Test
  void tonesFollowEachOtherInsideTheSoloAndTheInstrument() {
    for (Commission commission : Programme.corpus()) {
      Solo solo = commission.solo();
      int free = -solo.pickup();
      for (Tone tone : solo.tones()) {
        assertThat(tone.onset()).as(commission.file()).isGreaterThanOrEqualTo(free);
        assertThat(tone.length()).as(commission.file()).isPositive();
        assertThat(tone.midi())
            .as(commission.file())
            .isBetween(
                commission.player().instrument().low(), commission.player().instrument().high());
        assertThat(tone.name().pitchClass()).isEqualTo(tone.midi() % 12);
        free = tone.end();
      }
      assertThat(free).as(commission.file()).isLessThanOrEqualTo(solo.changes().end());
    }
  }

  @Test
  void sameSeedGivesTheSameSolo() {
    Commission commission = Programme.corpus().get(17);

    assertThat(commission.solo().tones()).isEqualTo(commission.solo().tones());
  }

  private static double mean(
      List<LineStatistics> solos, ToDoubleFunction<LineStatistics> statistic) {
    return solos.stream().mapToDouble(statistic).average().orElseThrow();
  }
}
