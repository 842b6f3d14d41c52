package phrasecensus.music.pitch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class PitchTest {
  /** Scientific pitch names and MIDI numbers: common practice, no source. */
  @ParameterizedTest
  @CsvSource({"C4, 60", "E♭4, 63", "F♯5, 78", "B♯3, 60", "C♭4, 59", "G♭♭3, 53", "C-1, 0"})
  void aNameGivesItsPitch(String text, int midi) {
    assertThat(Pitch.named(text).midi()).isEqualTo(midi);
  }

  @ParameterizedTest
  @ValueSource(strings = {"C4", "E♭4", "B♯3", "D♯♯-1", "A4+31¢", "B♭3-14¢"})
  void whatIsWrittenIsReadBack(String text) {
    assertThat(Pitch.named(text)).hasToString(text);
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "H4", "C", "♭4", "C4x", "c4", "A4+31"})
  void whatIsNoPitchIsRefused(String text) {
    assertThatThrownBy(() -> Pitch.named(text))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid pitch: " + text);
  }
}
