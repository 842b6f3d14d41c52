package phrasecensus.report.picture;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import phrasecensus.music.time.Fraction;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.wording.Numbers;

class TimelineTest {
  private final Timeline timeline = new Timeline(new Numbers(Locale.ENGLISH));

  private static List<SoloLine.BarSpan> bars(int full, boolean pickup) {
    List<SoloLine.BarSpan> bars = new ArrayList<>();
    long onset = 0;
    if (pickup) {
      bars.add(bar(0, "0", 0, 1, true));
      onset = 1;
    }
    for (int i = 0; i < full; i++) {
      bars.add(bar(bars.size(), String.valueOf(i + 1), onset, 4, false));
      onset += 4;
    }
    return bars;
  }

  private static SoloLine.BarSpan bar(
      int index, String number, long onset, long length, boolean pickup) {
    return new SoloLine.BarSpan(
        index,
        number,
        Fraction.of(onset),
        Fraction.of(length),
        "4/4",
        Fraction.of(4 - length),
        pickup,
        null);
  }

  private static SoloLine.Tone tone(int index, long onset, long length, String role) {
    return new SoloLine.Tone(index, Fraction.of(onset), Fraction.of(length), 72, "C5", 0, role);
  }

  private static SoloLine solo(List<SoloLine.BarSpan> bars, SoloLine.Tone... notes) {
    return new SoloLine(
        bars,
        List.of(new SoloLine.ChordSpan(Fraction.of(0), Fraction.of(16), "C7")),
        List.of(notes),
        List.of(new SoloLine.PhraseSpan(0, 0, notes.length - 1, 0, 18, "1", "5", 4.5)),
        List.of(new SoloLine.LandingMark(notes.length - 1, 0, "phrase-end", "b9", false)));
  }

  @Test
  void barsStandFourByFourAndAPickupJoinsTheFirstFour() {
    assertThat(Timeline.lines(bars(10, true)).stream().map(List::size)).containsExactly(5, 4, 2);
    assertThat(Timeline.lines(bars(8, false)).stream().map(List::size)).containsExactly(4, 4);
  }

  @Test
  void aSoloWithoutNotesHasNoPictures() {
    assertThat(
            timeline.pictures(
                "s", new SoloLine(bars(4, false), List.of(), List.of(), List.of(), List.of())))
        .isEmpty();
  }

  @Test
  void aNoteThatSoundsOverTheLineIsDrawnOnBoth() {
    List<Picture> pictures =
        timeline.pictures(
            "s", solo(bars(8, false), tone(0, 0, 1, "chord-tone"), tone(1, 15, 3, null)));

    assertThat(areas(pictures.get(0))).hasSize(2);
    assertThat(areas(pictures.get(1))).hasSize(1);
    assertThat(areas(pictures.get(1)).get(0).x()).isEqualTo("0%");
  }

  @Test
  void chordTonesAndOthersDifferInMoreThanColour() {
    Picture picture =
        timeline
            .pictures(
                "s",
                solo(
                    bars(4, false),
                    tone(0, 0, 1, "guide-tone"),
                    tone(1, 1, 1, "not-in-chord"),
                    tone(2, 2, 1, null)))
            .get(0);

    assertThat(areas(picture).stream().map(Mark.Area::style))
        .containsExactly("tone core", "tone other", "tone plain");
  }

  @Test
  void aLandingHasAShapeAndItsDegreeInWords() {
    Picture picture =
        timeline.pictures("s", solo(bars(4, false), tone(0, 0, 1, "chord-tone"))).get(0);

    assertThat(picture.marks())
        .anyMatch(mark -> mark instanceof Mark.Sign sign && sign.shape().equals("diamond"))
        .anyMatch(mark -> mark instanceof Mark.Words words && words.text().equals("\u266d9"));
    assertThat(picture.title()).isEqualTo("Bars 1 to 4");
    assertThat(picture.description())
        .isEqualTo("Chords: C7. Phrase 1. Landings: phrase end on \u266d9.");
  }

  @Test
  void aShortLastLineKeepsTheWidthOfABar() {
    List<Picture> pictures =
        timeline.pictures(
            "s", solo(bars(6, false), tone(0, 0, 1, "chord-tone"), tone(1, 20, 4, null)));

    Mark.Area last = areas(pictures.get(1)).get(0);
    assertThat(last.x()).isEqualTo("25%");
    assertThat(last.width()).isEqualTo("24.7%");
  }

  private static List<Mark.Area> areas(Picture picture) {
    return picture.marks().stream()
        .filter(Mark.Area.class::isInstance)
        .map(Mark.Area.class::cast)
        .toList();
  }
}
