package phrasecensus.music.harmony;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import phrasecensus.music.harmony.TonalCentre.Mode;

/** Names of keys as people write them; signatures by the circle of fifths (common practice). */
class KeyTest {
  @ParameterizedTest(name = "{0}")
  @CsvSource({
    "G, 7, MAJOR, IONIAN",
    "E minor, 4, MINOR, MINOR",
    "Bb blues, 10, BLUES, BLUES",
    "D dorian, 2, MODAL, DORIAN",
    "F#m, 6, MINOR, MINOR",
    "Eb-maj, 3, MAJOR, IONIAN",
    "C#-min, 1, MINOR, MINOR",
    "A flat major, 8, MAJOR, IONIAN",
    "F-sharp minor, 6, MINOR, MINOR",
    "g mixolydian, 7, MODAL, MIXOLYDIAN",
    "B♭ Major, 10, MAJOR, IONIAN",
    "  C  harmonic   minor, 0, MINOR, HARMONIC_MINOR",
    "es-Moll, 3, MINOR, MINOR",
    "Fis-Dur, 6, MAJOR, IONIAN",
    "B-Dur, 10, MAJOR, IONIAN",
    "H-Moll, 11, MINOR, MINOR"
  })
  void readsAName(String text, int tonic, Mode mode, CentreScale scale) {
    assertThat(Key.parse(text)).contains(new Key(new TonalCentre(tonic, mode), scale));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "K", "Q minor", "G majr", "medium", "12", "Bbb blues x", "g", "-"})
  void anythingElseIsNoKey(String text) {
    assertThat(Key.parse(text)).isEmpty();
  }

  @ParameterizedTest(name = "{0} is written with {1}: {2}")
  @CsvSource({
    "G, 1, true", "G, -1, false", "E minor, 1, true", "E minor, 4, false",
    "D dorian, 0, true", "G mixolydian, 0, true", "Bb blues, -2, true", "Bb blues, -3, true",
    "Gb, 6, true", "Gb, -6, true", "C#m, 4, true"
  })
  void knowsItsSignature(String text, int fifths, boolean agrees) {
    assertThat(Key.parse(text).orElseThrow().isWrittenWith(fifths)).isEqualTo(agrees);
  }

  @Test
  void transposingMovesTheTonicAlone() {
    Key key = Key.parse("Bb blues").orElseThrow();

    assertThat(key.transposed(2)).isEqualTo(Key.parse("C blues").orElseThrow());
    assertThat(key.transposed(-9)).isEqualTo(Key.parse("Db blues").orElseThrow());
  }
}
