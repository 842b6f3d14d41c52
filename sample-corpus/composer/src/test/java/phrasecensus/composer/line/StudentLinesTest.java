package phrasecensus.composer.line;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.Test;
import phrasecensus.composer.cast.Commission;
import phrasecensus.composer.cast.Programme;

class StudentLinesTest {
  @Test
  void ramblerStartsWithPhrasesOfManyBarsAndShortensThem() {
    List<Double> bars = values(Departure.Kind.NO_RESTS, LineStatistics::medianPhraseBars);

    assertThat(bars.get(0)).isBetween(6.0, 14.0);
    assertFalling(bars);
    assertThat(bars.get(4)).isLessThan(3.6);
  }

  @Test
  void playerOfLongNotesGainsEighths() {
    List<Double> eighths = values(Departure.Kind.LONG_NOTES, solo -> 1 - solo.eighthShare());

    assertThat(eighths.get(0)).isGreaterThan(0.85);
    assertFalling(eighths);
  }

  @Test
  void deafPlayerMissesChordTonesLessAndLess() {
    List<Double> missed = values(Departure.Kind.IGNORES_CHANGES, solo -> 1 - solo.chordToneShare());
    List<Double> landings = values(Departure.Kind.IGNORES_CHANGES, LineStatistics::landingShare);

    assertThat(missed.get(0)).isGreaterThan(0.7);
    assertFalling(missed);
    assertThat(landings.get(0)).isLessThan(0.2);
    assertThat(landings.get(4)).isGreaterThan(0.5);
    assertFalling(landings.stream().map(share -> 1 - share).toList());
  }

  @Test
  void otherSidesOfTheirPlayingStayAsInTheCorpus() {
    assertThat(values(Departure.Kind.NO_RESTS, LineStatistics::chordToneShare))
        .allSatisfy(share -> assertThat(share).isBetween(0.5, 0.62));
    assertThat(values(Departure.Kind.LONG_NOTES, LineStatistics::chordToneShare))
        .allSatisfy(share -> assertThat(share).isBetween(0.5, 0.62));
    assertThat(values(Departure.Kind.IGNORES_CHANGES, LineStatistics::medianPhraseBars))
        .allSatisfy(bars -> assertThat(bars).isBetween(2.0, 3.0));
  }

  @Test
  void everyStudentSoloHasAtLeastFivePhrases() {
    for (Commission commission : Programme.students()) {
      assertThat(LineStatistics.of(commission.solo()).phrases())
          .as(commission.file())
          .isGreaterThanOrEqualTo(5);
    }
  }

  private static List<Double> values(
      Departure.Kind kind, ToDoubleFunction<LineStatistics> statistic) {
    List<Double> values = new ArrayList<>();
    for (Commission commission : Programme.students()) {
      if (commission.departure().kind() == kind) {
        values.add(statistic.applyAsDouble(LineStatistics.of(commission.solo())));
      }
    }
    assertThat(values).hasSize(5);
    return values;
  }

  private static void assertFalling(List<Double> values) {
    for (int i = 1; i < values.size(); i++) {
      assertThat(values.get(i)).as("%s at %d", values, i).isLessThan(values.get(i - 1));
    }
  }
}
