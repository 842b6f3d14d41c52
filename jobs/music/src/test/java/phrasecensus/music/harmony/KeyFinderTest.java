package phrasecensus.music.harmony;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.harmony.TonalCentre.Mode;
import phrasecensus.music.harmony.TonalCentreSpan.Source;
import phrasecensus.music.score.KeyChange;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/** Keys of invented lines without chords; what is right is what every primer says of them. */
class KeyFinderTest {
  /** Up the scale and back to its first note, twice: {@code steps} in semitones from C4's tonic. */
  private static String line(String... pitches) {
    StringBuilder notes = new StringBuilder();
    for (int i = 0; i < pitches.length; i++) {
      notes.append(i).append(':').append(pitches[i]).append(":1 ");
    }
    return notes.toString();
  }

  private static final String C_SCALE_ON_C =
      line(
          "C4", "D4", "E4", "F4", "G4", "A4", "B4", "C5", "B4", "A4", "G4", "F4", "E4", "D4", "C4");
  private static final String C_SCALE_ON_A =
      line(
          "A4", "B4", "C5", "D5", "E5", "F5", "E5", "D5", "C5", "A4", "E4", "A4", "B4", "G4", "A4");
  private static final String C_SCALE_ON_D =
      line(
          "D4", "E4", "F4", "G4", "A4", "B4", "C5", "D5", "A4", "F4", "D4", "A4", "F4", "E4", "D4");
  private static final String E_FLAT_SCALE =
      line(
          "Eb4", "F4", "G4", "Ab4", "Bb4", "C5", "D5", "Eb5", "Bb4", "G4", "Eb4", "F4", "G4",
          "Eb4");

  private static Solo solo(String notes, KeyChange... keys) {
    Solo solo = SoloText.solo(Metre.of(4, 4), 4, notes, "");
    return new Solo(
        solo.description(),
        solo.bars(),
        solo.notes(),
        solo.graceNotes(),
        solo.chords(),
        List.of(keys),
        solo.tempi(),
        solo.marks(),
        solo.unknownSpans(),
        solo.unpitchedOnsets());
  }

  private static KeyChange signature(int fifths) {
    return new KeyChange(Fraction.ZERO, fifths, fifths, "major");
  }

  private static TonalCentres find(Solo solo) {
    return TonalCentreFinder.find(solo, Optional.empty());
  }

  private static void assertKey(
      TonalCentres found, int tonic, Mode mode, CentreScale scale, Source source) {
    assertThat(found.whole()).isEqualTo(new TonalCentre(tonic, mode));
    assertThat(found.scale()).isEqualTo(scale);
    assertThat(found.source()).isEqualTo(source);
  }

  @Test
  void signatureIsMajorWhereTheLineRestsOnItsMajor() {
    assertKey(
        find(solo(E_FLAT_SCALE, signature(-3))),
        3,
        Mode.MAJOR,
        CentreScale.IONIAN,
        Source.SIGNATURE);
  }

  @Test
  void signatureIsMinorWhereTheLineRestsOnItsMinor() {
    assertKey(
        find(solo(C_SCALE_ON_A, signature(0))),
        9,
        Mode.MINOR,
        CentreScale.AEOLIAN,
        Source.SIGNATURE);
  }

  @Test
  void signatureIsDorianWhereTheLineRestsOnItsSecondDegree() {
    assertKey(
        find(solo(C_SCALE_ON_D, signature(0))),
        2,
        Mode.MODAL,
        CentreScale.DORIAN,
        Source.SIGNATURE);
  }

  @Test
  void signatureWithFlatsBindsWhateverTheNotes() {
    TonalCentres found = find(solo(C_SCALE_ON_C, signature(-3)));

    assertThat(found.source()).isEqualTo(Source.SIGNATURE);
    assertThat(List.of(3, 0)).contains(found.whole().tonic());
  }

  @Test
  void signatureWithoutFlatsYieldsToNotesThatStayInAnotherScale() {
    assertKey(
        find(solo(E_FLAT_SCALE, signature(0))), 3, Mode.MAJOR, CentreScale.IONIAN, Source.NOTES);
  }

  /** A part in E flat whose program wrote no signature sounds in E flat major on paper only. */
  @Test
  void whatThePlayerReadsTellsWhetherASignatureIsWeak() {
    KeyChange altoWithoutSignature = new KeyChange(Fraction.ZERO, -3, 0, "major");

    assertKey(
        find(solo(C_SCALE_ON_C, altoWithoutSignature)),
        0,
        Mode.MAJOR,
        CentreScale.IONIAN,
        Source.NOTES);
  }

  @Test
  void withoutSignatureTheNotesTell() {
    assertKey(find(solo(E_FLAT_SCALE)), 3, Mode.MAJOR, CentreScale.IONIAN, Source.NOTES);
  }

  @ParameterizedTest(name = "{0} semitones higher")
  @CsvSource({"1", "2", "5", "7", "11"})
  void transposingMovesTheKey(int semitones) {
    String[] names = {"C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"};
    String[] moved = new String[7];
    int[] dorian = {0, 2, 3, 5, 7, 9, 10};
    for (int i = 0; i < 7; i++) {
      int midi = dorian[i] + 2 + semitones;
      moved[i] = names[midi % 12] + (4 + midi / 12);
    }
    String notes =
        line(
            moved[0], moved[1], moved[2], moved[3], moved[4], moved[5], moved[6], moved[4],
            moved[2], moved[0], moved[4], moved[2], moved[1], moved[0]);
    int fifths = Math.floorMod(7 * semitones + 5, 12) - 5;

    assertKey(
        find(solo(notes, signature(fifths))),
        (2 + semitones) % 12,
        Mode.MODAL,
        CentreScale.DORIAN,
        Source.SIGNATURE);
  }

  @Test
  void restsInAKeyHaveTheSignaturesMajor() {
    assertKey(find(solo("", signature(2))), 2, Mode.MAJOR, CentreScale.IONIAN, Source.SIGNATURE);
  }

  @Test
  void restsWithoutSignatureHaveNoKey() {
    assertThat(find(solo("")).source()).isEqualTo(Source.NONE);
    assertThat(find(solo("", signature(0))).source()).isEqualTo(Source.NONE);
  }

  @Test
  void oneNoteHasTheKeyOfItsSignature() {
    assertKey(
        find(solo("0:A4:1", signature(1))), 7, Mode.MAJOR, CentreScale.IONIAN, Source.SIGNATURE);
  }

  @Test
  void everyStretchHasTheKeyOfItsOwnSignature() {
    String notes =
        line(
            "C4", "E4", "G4", "F4", "E4", "D4", "B3", "C4", "Eb4", "G4", "Bb4", "Ab4", "G4", "F4",
            "D4", "Eb4");

    TonalCentres found =
        find(solo(notes, signature(0), new KeyChange(Fraction.of(8), -3, -3, null)));

    assertThat(found.spans().stream().map(TonalCentreSpan::centre).toList())
        .containsExactly(new TonalCentre(0, Mode.MAJOR), new TonalCentre(3, Mode.MAJOR));
  }
}
