package phrasecensus.music.pitch;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** W3C MusicXML 4.0, element transpose: what is added to written pitch to get sounding pitch. */
class TranspositionTest {
  private static final Transposition ALTO_SAXOPHONE = new Transposition(-5, -9, 0);
  private static final Transposition TENOR_SAXOPHONE = new Transposition(-1, -2, -1);

  @Test
  void altoSaxophoneSoundsAMajorSixthLower() {
    Pitch sounding = ALTO_SAXOPHONE.sounding(Pitch.of(Step.C, 0, 5));

    assertThat(sounding).isEqualTo(Pitch.of(Step.E, -1, 4));
    assertThat(sounding.midi()).isEqualTo(63);
  }

  @Test
  void tenorSaxophoneSoundsAMajorNinthLower() {
    Pitch sounding = TENOR_SAXOPHONE.sounding(Pitch.of(Step.D, 0, 4));

    assertThat(sounding).isEqualTo(Pitch.of(Step.C, 0, 3));
    assertThat(sounding.midi()).isEqualTo(48);
  }

  /** Arithmetic on the line of fifths: 7 × chromatic − 12 × diatonic. */
  @ParameterizedTest(name = "{0} letter steps, {1} semitones: {2} fifths")
  @CsvSource({"-5, -9, -3", "-1, -2, -2", "-4, -7, -1", "0, 0, 0", "-7, -12, 0"})
  void keySignaturesMoveOnTheLineOfFifths(int diatonic, int chromatic, int fifths) {
    assertThat(new Transposition(diatonic, chromatic, 0).fifths()).isEqualTo(fifths);
  }

  @Test
  void writtenFSharpOfAnAltoSaxophoneSoundsAsA() {
    assertThat(ALTO_SAXOPHONE.sounding(new NoteName(Step.F, 1))).isEqualTo(new NoteName(Step.A, 0));
  }

  @Test
  void inverseGivesTheWrittenPitchBack() {
    Random random = new Random(7);
    for (int i = 0; i < 500; i++) {
      int chromatic = random.nextInt(23) - 11;
      Transposition there =
          new Transposition(Transposition.diatonicFor(chromatic), chromatic, random.nextInt(3) - 1);
      Pitch pitch =
          Pitch.of(Step.values()[random.nextInt(7)], random.nextInt(3) - 1, 2 + random.nextInt(5));

      Pitch sounding = there.sounding(pitch);

      assertThat(sounding.midi()).as("case %d", i).isEqualTo(pitch.midi() + there.semitones());
      assertThat(there.inverse().sounding(sounding)).as("case %d", i).isEqualTo(pitch);
      assertThat(there.sounding(pitch.name())).as("case %d", i).isEqualTo(sounding.name());
    }
  }

  @Test
  void noTranspositionChangesNothing() {
    Pitch pitch = Pitch.of(Step.B, -1, 3);

    assertThat(Transposition.NONE.isNone()).isTrue();
    assertThat(Transposition.NONE.sounding(pitch)).isEqualTo(pitch);
  }

  @ParameterizedTest(name = "{0} stands at {1} and sounds as pitch class {2}")
  @CsvSource({
    "F, -1, 5",
    "C, 0, 0",
    "F♯, 6, 6",
    "B♭, -2, 10",
    "C♭, -7, 11",
    "F♭, -8, 4",
    "B♯, 12, 0"
  })
  void noteNameAtAPlaceOnTheLineOfFifths(String name, int fifths, int pitchClass) {
    NoteName noteName = NoteName.atFifths(fifths);

    assertThat(noteName.toString()).isEqualTo(name);
    assertThat(noteName.fifths()).isEqualTo(fifths);
    assertThat(noteName.pitchClass()).isEqualTo(pitchClass);
  }
}
