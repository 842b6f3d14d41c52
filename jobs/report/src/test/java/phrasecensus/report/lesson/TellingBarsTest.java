package phrasecensus.report.lesson;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import phrasecensus.music.time.Fraction;
import phrasecensus.report.rows.SoloLine;

class TellingBarsTest {
  /** Whole notes, one a bar, those of some bars outside the key, a breath after every second. */
  private static LessonLine line(int bars, List<Integer> outside) {
    List<SoloLine.BarSpan> spans = new ArrayList<>();
    List<SoloLine.Tone> notes = new ArrayList<>();
    for (int i = 0; i < bars; i++) {
      spans.add(
          new SoloLine.BarSpan(
              i,
              String.valueOf(i + 1),
              Fraction.of(4L * i),
              Fraction.of(4),
              "4/4",
              Fraction.ZERO,
              false,
              null));
      notes.add(
          new SoloLine.Tone(
              i,
              Fraction.of(4L * i),
              Fraction.of(i % 2 == 0 ? 4 : 3),
              60,
              "C4",
              0,
              "C4",
              null,
              !outside.contains(i + 1),
              i / 2,
              null));
    }
    return LessonLine.of(new SoloLine(spans, List.of(), notes, List.of(), List.of()));
  }

  @Test
  void aShortSoloIsShownWhole() {
    assertThat(TellingBars.of(line(32, List.of()), "outside_key", 32))
        .containsExactly(new TellingBars.Passage(0, 31));
  }

  @Test
  void ofALongSoloTheBarsThatTellAreShownInTheirOrder() {
    assertThat(TellingBars.of(line(64, List.of(6, 7, 50, 51, 52)), "outside_key", 8))
        .containsExactly(new TellingBars.Passage(4, 7), new TellingBars.Passage(48, 51));
  }

  @Test
  void neighboursAreOnePassage() {
    assertThat(TellingBars.of(line(64, List.of(6, 10)), "outside_key", 8))
        .containsExactly(new TellingBars.Passage(4, 11));
  }

  @Test
  void whereNothingTellsMoreTheFirstBarsAreShown() {
    assertThat(TellingBars.of(line(64, List.of()), "none", 16))
        .containsExactly(new TellingBars.Passage(0, 15));
  }

  @Test
  void stretchesAreMeasuredInBars() {
    LessonLine line = line(4, List.of());

    assertThat(line.stretches()).extracting(Stretch::bars).containsExactly(1.75, 1.75);
    assertThat(line.middleLength()).isEqualTo(1.75);
    assertThat(line.scraps()).isZero();
  }
}
