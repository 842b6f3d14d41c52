package phrasecensus.music.score;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.time.Fraction;

/** Invented lines; how swing is written out is common practice, no source. */
class SwingNotationTest {
  private static String evened(Metre metre, String notes) {
    return SwingNotation.evened(SoloText.solo(metre, 4, notes, "")).notes().stream()
        .map(note -> note.onset() + ":" + note.length())
        .collect(Collectors.joining(" "));
  }

  @ParameterizedTest(name = "{1}: {0} is read as {2}")
  @CsvSource({
    "0:C4:2/3 2/3:D4:1/3 1:E4:1, a triplet quarter and eighth, 0:1/2 1/2:1/2 1:1",
    "0:C4:3/4 3/4:D4:1/4 1:E4:1, a dotted eighth and a sixteenth, 0:1/2 1/2:1/2 1:1",
    "0:C4:1 5/3:D4:1/3 2:E4:1, a rest and a short note, 0:1 3/2:1/2 2:1",
    "0:C4:2/3 2/3:D4:4/3 2:E4:1, a short note tied on, 0:1/2 1/2:3/2 2:1",
    "0:C4:5/3 5/3:D4:1/3 2:E4:1, a long note tied into the beat, 0:3/2 3/2:1/2 2:1",
    "0:C4:2/3 1:D4:1, a long note and a short rest, 0:1/2 1:1"
  })
  void longAndShortAreEvenEighths(String notes, String what, String expected) {
    assertThat(evened(Metre.of(4, 4), notes)).isEqualTo(expected);
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource({
    // a triplet of three notes, and one that begins with its short note
    "0:C4:1/3 1/3:D4:1/3 2/3:E4:1/3",
    "0:C4:1/3 1/3:D4:2/3",
    // sixteenths
    "0:C4:1/4 1/4:D4:1/4 1/2:E4:1/4 3/4:F4:1/4",
    "0:C4:1/2 1/2:D4:1/4 3/4:E4:1/4",
    // triplets over two and four quarters, with a rest in the middle
    "0:C4:2/3 2/3:D4:2/3 4/3:E4:2/3",
    "0:C4:4/3 4/3:D4:4/3 8/3:E4:4/3",
    "0:C4:2/3 4/3:E4:2/3",
    // even eighths
    "0:C4:1/2 1/2:D4:1/2"
  })
  void whatIsNoLongAndShortStays(String notes) {
    Solo solo = SoloText.solo(Metre.of(4, 4), 4, notes, "");

    assertThat(SwingNotation.evened(solo)).isSameAs(solo);
  }

  @Test
  void inCompoundAndFreeMetreNothingMoves() {
    for (Metre metre : List.of(Metre.of(6, 8), Metre.of(12, 8), Metre.FREE)) {
      Solo solo = SoloText.solo(metre, 4, "0:C4:3/4 3/4:D4:1/4 1:E4:1/2", "");

      assertThat(SwingNotation.evened(solo)).as(metre.text()).isSameAs(solo);
    }
  }

  @Test
  void quartersAreCountedFromTheBarLineAfterAPickup() {
    Solo solo =
        SoloText.solo(Metre.of(4, 4), 2, Fraction.of(1, 3), "0:C4:1/3 1/3:D4:2/3 1:E4:1/3", "");

    assertThat(SwingNotation.evened(solo).notes())
        .extracting(note -> note.onset().toString())
        .containsExactly("0", "1/3", "5/6");
  }

  @Test
  void chordsAndMarksAtTheMomentMoveAlong() {
    Solo plain = SoloText.solo(Metre.of(4, 4), 2, "0:C4:2/3 2/3:D4:1/3 1:E4:1", "0:Dm7 2/3:G7 4:C");
    Mark slur = new Mark(Mark.Kind.SLUR, Fraction.ZERO, Fraction.of(2, 3), "");
    Solo solo =
        new Solo(
            plain.description(),
            plain.bars(),
            plain.notes(),
            List.of(),
            plain.chords(),
            List.of(),
            List.of(),
            List.of(slur),
            List.of(),
            List.of());

    Solo evened = SwingNotation.evened(solo);

    assertThat(evened.chords())
        .extracting(chord -> chord.onset() + " to " + chord.end())
        .containsExactly("0 to 1/2", "1/2 to 4", "4 to 8");
    assertThat(evened.marks()).extracting(Mark::end).containsExactly(Fraction.HALF);
  }

  @Test
  void anEvenedSoloStaysAsItIs() {
    Solo evened =
        SwingNotation.evened(
            SoloText.solo(Metre.of(3, 4), 4, "0:C4:3/4 3/4:D4:1/4 1:E4:2/3 5/3:F4:4/3", ""));

    assertThat(SwingNotation.evened(evened)).isSameAs(evened);
  }
}
