package phrasecensus.music.phrase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import phrasecensus.music.score.Mark;
import phrasecensus.music.time.Fraction;

/** Features by their definitions in {@link BreathFeature}, by hand or by a slower way. */
class BreathViewTest {
  @Test
  void theMedianAroundAGapLeavesTheGapOut() {
    for (int seed = 0; seed < 20; seed++) {
      var solo = Tunes.random(seed, 2 + 3 * seed);
      BreathView view = new BreathView(solo);
      int count = view.features.length;
      for (int i = 0; i < count; i++) {
        List<Double> others = new ArrayList<>();
        for (int j = Math.max(0, i - 8); j < Math.min(count, i + 9); j++) {
          if (j != i) {
            others.add(Math.log(view.beats[j + 1] - view.beats[j]) / Math.log(2));
          }
        }
        double own = Math.log(view.beats[i + 1] - view.beats[i]) / Math.log(2);
        double expected = others.isEmpty() ? 0 : own - median(others);

        assertThat(view.features[i][BreathFeature.GAP_AROUND.ordinal()])
            .as("seed %s joint %s", seed, i)
            .isCloseTo(Math.max(-1, Math.min(3, expected)), within(1e-9));
      }
    }
  }

  @Test
  void silencesAndNotesAreMeasuredAgainstTheRestsOnBothSides() {
    // rests of one beat after notes 2 and 6; silence of a quarter beat after note 4
    var view =
        new BreathView(Tunes.of("0:1:60 1:1:62 3:1:60 4:3/4:62 5:1:60 6:1:62 8:1:60 9:1:62"));
    double[] row = view.features[3];

    assertThat(row[BreathFeature.SILENCE_AGAINST_RESTS.ordinal()])
        .isCloseTo(Math.log(.5 / 1.25) / Math.log(2), within(1e-9));
    assertThat(row[BreathFeature.NOTES_BETWEEN_RESTS.ordinal()]).isCloseTo(1, within(1e-9));
    assertThat(row[BreathFeature.SILENCE_BEATS.ordinal()]).isCloseTo(.25, within(1e-9));
    assertThat(row[BreathFeature.SILENCE_SECONDS.ordinal()]).isCloseTo(.125, within(1e-9));
  }

  @Test
  void prominenceIsTheDistanceToTheNearestLongerPause() {
    // even quarters; longer pauses before notes 5 and 9 (index 4 and 8), the later one longer
    var view =
        new BreathView(
            Tunes.of("0:1:60 1:1:60 2:1:60 3:1:60 6:1:60 7:1:60 8:1:60 9:1:60 14:1:60 15:1:60"));

    // before note index 4: none earlier (32 beats), the longer one 8 beats later
    assertThat(view.features[3][BreathFeature.PROMINENCE.ordinal()])
        .isCloseTo((5 + 3) / 2.0, within(1e-9));
  }

  @Test
  void aSectionIsHeardAtItsFirstNoteAndAtThePickupIntoIt() {
    var marks = List.of(new Mark(Mark.Kind.REHEARSAL, Fraction.of(8), Fraction.of(8), "B"));
    var solo =
        Tunes.withMarks(
            Tunes.of("0:1:60 2:1:60 4:1:60 6:1:60 7:1:60 8:1:60 9:1:60 10:1:60"), marks);
    BreathView view = new BreathView(solo);

    List<Integer> heard = new ArrayList<>();
    for (int i = 0; i < view.features.length; i++) {
      if (view.features[i][BreathFeature.SECTION.ordinal()] == 1) {
        heard.add(i + 1);
      }
    }
    assertThat(heard).containsExactly(4, 5);
  }

  @Test
  void aLineWithoutRestsIsWhollyWithoutAndOneWithARestABarIsNot() {
    assertThat(new BreathView(Tunes.of("0:1:60 1:1:60 2:1:60 3:1:60")).withoutRests).isEqualTo(1);
    assertThat(new BreathView(Tunes.of("0:1:60 2:1:60 4:1:60 6:1:60")).withoutRests).isZero();
  }

  private static double median(List<Double> values) {
    Collections.sort(values);
    int middle = values.size() / 2;
    return values.size() % 2 == 1
        ? values.get(middle)
        : (values.get(middle - 1) + values.get(middle)) / 2;
  }
}
