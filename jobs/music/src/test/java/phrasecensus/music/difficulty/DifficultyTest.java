package phrasecensus.music.difficulty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.pitch.Pitch;
import phrasecensus.music.pitch.Transposition;
import phrasecensus.music.time.Fraction;

class DifficultyTest {
  /** The theme of the last movement of Beethoven's ninth symphony, first four bars, from memory. */
  private static final String JOY =
      "E4:1 E4:1 F4:1 G4:1 G4:1 F4:1 E4:1 D4:1 C4:1 C4:1 D4:1 E4:1 E4:3/2 D4:1/2 D4:2";

  /** “Frère Jacques”, traditional, first four bars, from memory. */
  private static final String ROUND =
      "C4:1 D4:1 E4:1 C4:1 C4:1 D4:1 E4:1 C4:1 E4:1 F4:1 G4:2 E4:1 F4:1 G4:2";

  private static List<WrittenNote> notes(String text) {
    List<WrittenNote> notes = new ArrayList<>();
    for (String word : text.split(" ")) {
      String[] parts = word.split(":");
      notes.add(new WrittenNote(Fraction.parse(parts[1]), SoloText.pitch(parts[0])));
    }
    return notes;
  }

  private static int level(String text, int signature) {
    return Difficulty.of(notes(text), signature).level();
  }

  private static int side(Difficulty.Side side, String text, int signature) {
    return Difficulty.of(notes(text), signature).levels().get(side);
  }

  /** What beginners' books begin with (common practice, no source). */
  @Test
  void tunesThatBeginnersPlayLieAtTheBottom() {
    assertThat(level(ROUND, 0)).isEqualTo(1);
    assertThat(level(JOY, 0)).isEqualTo(2);
  }

  @ParameterizedTest
  @CsvSource({
    "C4:1 D4:2 E4:4, 1",
    "C4:1 D4:1/2 E4:1/2, 2",
    "C4:1 D4:3/4 E4:1/4 F4:1 G4:1, 3",
    "C4:1/4 D4:1/4 E4:1/4 F4:1/4, 4",
    "C4:1 D4:1/8 E4:1/8, 5"
  })
  void shorterValuesAreHarder(String notes, int level) {
    assertThat(side(Difficulty.Side.NOTE_VALUES, notes, 0)).isEqualTo(level);
  }

  @ParameterizedTest
  @CsvSource({
    "C4:1 D4:1/2 E4:1/2, 1",
    "C4:1/3 D4:1/3 E4:1/3, 3",
    "C4:2/3 D4:1/3 E4:1, 4",
    "C4:2/3 D4:2/3 E4:2/3, 4",
    "C4:1/6 D4:1/6 E4:1/6, 4",
    "C4:1/5 D4:1/5 E4:1/5 D4:1/5 C4:1/5, 5",
    "C4:4/7 D4:4/7, 5"
  })
  void tupletsAreHarderTheRarerTheyAre(String notes, int level) {
    assertThat(side(Difficulty.Side.TUPLETS, notes, 0)).isEqualTo(level);
  }

  @ParameterizedTest
  @CsvSource({"G4, 1", "A4, 2", "C5, 2", "E5, 3", "F5, 4", "C6, 4", "D6, 5"})
  void theRangeCountsFromLowestToHighest(String highest, int level) {
    assertThat(side(Difficulty.Side.RANGE, "C4:1 " + highest + ":1", 0)).isEqualTo(level);
  }

  @ParameterizedTest
  @CsvSource({"E4, 1", "F4, 2", "G4, 2", "A4, 3", "B4, 4", "C5, 4", "D5, 5"})
  void theWidestLeapCounts(String second, int level) {
    assertThat(side(Difficulty.Side.LEAPS, "C4:1 " + second + ":1", 0)).isEqualTo(level);
  }

  @ParameterizedTest
  @CsvSource({
    "F#4:1 G4:1 A4:1, 1, 1",
    "F4:1 G4:1 A4:1, 1, 4",
    "Bb4:1 Eb5:1, -2, 1",
    "B4:1 Eb5:1, -2, 5",
    "C4:1 D4:1 E4:1 F4:1 G4:1 A4:1 B4:1 C#5:1, 0, 2",
    "C4:1 D4:1 E4:1 F#4:1 G4:1, 0, 3",
    "C4:1 D4:1 E4:1 F4:1 G4:1 A4:1 B4:1 Fbb5:1, 0, 5"
  })
  void onlyWhatTheSignatureDoesNotSayIsAnAccidental(String notes, int signature, int level) {
    assertThat(side(Difficulty.Side.ACCIDENTALS, notes, signature)).isEqualTo(level);
  }

  @ParameterizedTest
  @CsvSource({"0, 1", "1, 1", "-2, 2", "3, 3", "-4, 4", "5, 5", "-7, 5"})
  void theSignatureCountsItsSharpsOrFlats(int signature, int level) {
    assertThat(side(Difficulty.Side.SIGNATURE, "C4:1", signature)).isEqualTo(level);
  }

  /** Seven sharps alter every letter, and so do seven flats. */
  @ParameterizedTest
  @CsvSource({
    "C#4:1 D#4:1 E#4:1 F#4:1 G#4:1 A#4:1 B#4:1, 7",
    "Cb4:1 Db4:1 Eb4:1 Fb4:1 Gb4:1 Ab4:1 Bb4:1, -7"
  })
  void aScaleInItsOwnSignatureHasNoAccidental(String notes, int signature) {
    assertThat(side(Difficulty.Side.ACCIDENTALS, notes, signature)).isEqualTo(1);
  }

  @Test
  void transpositionChangesTheSignatureAndNothingElse() {
    List<WrittenNote> moved = new ArrayList<>();
    Transposition upAMajorSixth = new Transposition(5, 9, 0);
    for (WrittenNote note : notes(ROUND)) {
      Pitch pitch = upAMajorSixth.sounding(note.pitch());
      moved.add(new WrittenNote(note.length(), pitch));
    }

    Difficulty forAlto = Difficulty.of(moved, 3);

    assertThat(forAlto.levels().get(Difficulty.Side.ACCIDENTALS)).isEqualTo(1);
    assertThat(forAlto.level()).isEqualTo(3);
  }

  @Test
  void theHardestSideDecides() {
    assertThat(level("C4:1 D4:1 E4:1/5", 0)).isEqualTo(5);
    assertThat(level("E4:1 F#4:1 G#4:1", 4)).isEqualTo(4);
  }

  @Test
  void aLineWithoutNotesIsEasy() {
    assertThat(Difficulty.of(List.of(), 0).level()).isEqualTo(Difficulty.EASIEST);
  }

  @Test
  void aNoteLastsSomeTime() {
    assertThatThrownBy(() -> new WrittenNote(Fraction.ZERO, SoloText.pitch("C4")))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid note length: 0 is not positive");
  }
}
