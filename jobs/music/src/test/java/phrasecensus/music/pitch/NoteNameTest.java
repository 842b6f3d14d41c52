package phrasecensus.music.pitch;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Which names players look for: common practice, no source. */
class NoteNameTest {
  @ParameterizedTest(name = "{0} with {1} is read as {2} with {3}")
  @CsvSource({
    "E, -2, D, 0",
    "C, -1, B, 0",
    "F, -1, E, 0",
    "A, 1, B, -1",
    "D, 1, E, -1",
    "E, 1, F, 0",
    "F, 2, G, 0",
    "G, -1, G, -1",
    "G, 1, G, 1",
    "B, -1, B, -1",
    "C, 0, C, 0"
  })
  void aChordRootIsReadUnderItsSimplestName(Step step, int alter, Step easy, int easyAlter) {
    assertThat(new NoteName(step, alter).simplest()).isEqualTo(new NoteName(easy, easyAlter));
  }

  @Test
  void everyNameSoundsTheSameUnderItsSimplestAndHasOneSignAtMost() {
    for (int place = -40; place <= 40; place++) {
      NoteName name = NoteName.atFifths(place);

      assertThat(name.simplest().pitchClass()).isEqualTo(name.pitchClass());
      assertThat(Math.abs(name.simplest().alter())).isLessThan(2);
    }
  }

  /** A B sharp lies in the octave of its letter: B sharp 3 is middle C. */
  @ParameterizedTest(name = "{0} with {1} in octave {2}")
  @CsvSource({"C, -2, 5", "B, 2, 3", "E, -2, 4", "B, -2, 4", "C, 2, 4", "A, 2, 4", "F, -1, 4"})
  void aPitchWithoutDoublesSoundsTheSame(Step step, int alter, int octave) {
    Pitch pitch = Pitch.of(step, alter, octave);

    assertThat(pitch.withoutDoubles().midi()).isEqualTo(pitch.midi());
    assertThat(Math.abs(pitch.withoutDoubles().alter())).isLessThan(2);
  }
}
