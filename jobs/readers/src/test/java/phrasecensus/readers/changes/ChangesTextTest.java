package phrasecensus.readers.changes;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.changes.Changes;
import phrasecensus.music.chord.Chord;
import phrasecensus.readers.musicxml.ChordSymbolText;

/** Changes as musicians type them (common practice, no source). */
class ChangesTextTest {
  private static List<List<String>> bars(String text) {
    return ChangesText.read(text).changes().bars().stream()
        .map(
            bar -> bar.stream().map(placed -> placed.at() + ":" + placed.chord().symbol()).toList())
        .toList();
  }

  @Test
  void chordsOfABarShareItEqually() {
    assertThat(bars("Gmaj7 | Em7 | Am7 D7 |"))
        .containsExactly(List.of("0:Gmaj7"), List.of("0:Em7"), List.of("0:Am7", "1/2:D7"));
  }

  @Test
  void slashGoesOnAndPercentRepeats() {
    assertThat(bars("|: G / / D7 | % | | N.C. :|"))
        .containsExactly(
            List.of("0:G", "3/4:D7"), List.of("0:G", "3/4:D7"), List.of(), List.of("0:N.C."));
  }

  @Test
  void whatIsNoChordIsNamedWithItsBar() {
    ChangesText.Reading reading = ChangesText.read("Gmaj7 | Xyz D7 | H7");

    assertThat(reading.unread()).containsExactly("'Xyz' in bar 2", "'H7' in bar 3");
    assertThat(reading.changes().bars()).hasSize(3);
  }

  @Test
  void textOfChangesReadsBack() {
    Changes changes =
        ChangesText.read("Gmaj7 | C#m7b5 F#7(b9 #11) | Bb/D / / A7 | % | Eb6/9").changes();

    assertThat(ChangesText.read(changes.text()).changes().bars()).isEqualTo(changes.bars());
  }

  /** Pitch classes by the names of the intervals, from every theory primer. */
  @ParameterizedTest(name = "{0}")
  @CsvSource({
    "C, 0 4 7",
    "Cm7, 0 3 7 10",
    "C-7, 0 3 7 10",
    "CMaj7, 0 4 7 11",
    "C7(b9), 0 1 4 7 10",
    "C7b9#11, 0 1 4 6 7 10",
    "Cm7b5, 0 3 6 10",
    "Cø, 0 3 6 10",
    "Co7, 0 3 6 9",
    "C13, 0 2 4 5 7 9 10",
    "C7sus4, 0 5 7 10",
    "C6/9, 0 2 4 7 9",
    "Cadd9, 0 2 4 7",
    "F#m, 1 6 9",
    "Bb7/D, 2 5 8 10"
  })
  void symbolHasItsTones(String symbol, String pitchClasses) {
    Chord chord = ChordSymbolText.chord(symbol).orElseThrow();

    assertThat(
            chord.pitchClasses().stream()
                .sorted()
                .map(String::valueOf)
                .reduce((a, b) -> a + " " + b)
                .orElse(""))
        .isEqualTo(pitchClasses);
  }
}
