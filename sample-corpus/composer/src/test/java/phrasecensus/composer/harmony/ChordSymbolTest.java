package phrasecensus.composer.harmony;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ChordSymbolTest {
  /** Chord spelling: common practice, no source. */
  @ParameterizedTest(name = "{0} holds {1}")
  @CsvSource({
    "Dm7, D F A C",
    "Bb7, Bb D F Ab",
    "F#dim7, F# A C Eb",
    "Am7b5, A C Eb G",
    "C+7, C E G# Bb",
    "G7sus4, G C D F",
    "Gmmaj7, G Bb D F#",
    "D7b5, D F# Ab C",
    "Eb69, Eb G Bb C",
    "C6/G, C E G A"
  })
  void coreTonesAreSpelledAsThirds(String symbol, String tones) {
    ChordSymbol chord = ChordSymbol.of(symbol);

    String spelled =
        chord.core().stream()
            .map(offset -> chord.root().up(offset).readable().toString())
            .collect(Collectors.joining(" "));
    assertThat(spelled).isEqualTo(tones);
  }

  @Test
  void chordMovesUpATone() {
    assertThat(ChordSymbol.of("Bbmaj7/D").up(2)).hasToString("Cmaj7/E");
    assertThat(ChordSymbol.of("F#dim7").up(2)).hasToString("G#dim7");
    assertThat(ChordSymbol.NO_CHORD.up(2)).isEqualTo(ChordSymbol.NO_CHORD);
  }

  @Test
  void unknownSymbolIsRefused() {
    assertThatThrownBy(() -> ChordSymbol.of("Cmaj8"))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid chord symbol: Cmaj8");
  }

  /** Octave numbers as in MusicXML: the letter's octave, so B sharp 3 and C 4 sound the same. */
  @ParameterizedTest
  @CsvSource({"C, 60, 4", "B#, 60, 3", "Cb, 59, 4", "B, 59, 3", "Eb, 63, 4"})
  void octaveFollowsTheLetter(String name, int midi, int octave) {
    assertThat(NoteName.of(name).octave(midi)).isEqualTo(octave);
  }

  @Test
  void dominantThatFallsToMinorHasFlatNineAndThirteen() {
    ChordScale scale =
        ChordScale.of(ChordSymbol.of("G7"), ChordSymbol.of("Cm7"), Key.of("C minor"), false);

    assertThat(scale.name(8)).isEqualTo(NoteName.of("Ab"));
    assertThat(scale.name(3)).isEqualTo(NoteName.of("Eb"));
    assertThat(scale.holds(9)).isFalse();
  }
}
