package phrasecensus.music.chord;

import static org.assertj.core.api.Assertions.assertThat;
import static phrasecensus.music.analysis.SoloText.chord;
import static phrasecensus.music.analysis.SoloText.name;
import static phrasecensus.music.analysis.SoloText.pitch;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import phrasecensus.music.pitch.NoteName;
import phrasecensus.music.pitch.Step;
import phrasecensus.music.pitch.Transposition;

class ChordTest {
  /**
   * W3C MusicXML 4.0, simple type kind-value: semitones above the root of the whole chord, of its
   * core tones 1 3 5 7 and of its guide tones (common practice). Empty where the standard gives no
   * intervals.
   */
  @ParameterizedTest(name = "{0} holds {1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "major | 0 4 7 | 0 4 7 | 4",
        "minor | 0 3 7 | 0 3 7 | 3",
        "augmented | 0 4 8 | 0 4 8 | 4",
        "diminished | 0 3 6 | 0 3 6 | 3",
        "dominant | 0 4 7 10 | 0 4 7 10 | 4 10",
        "major-seventh | 0 4 7 11 | 0 4 7 11 | 4 11",
        "minor-seventh | 0 3 7 10 | 0 3 7 10 | 3 10",
        "diminished-seventh | 0 3 6 9 | 0 3 6 9 | 3 9",
        "augmented-seventh | 0 4 8 10 | 0 4 8 10 | 4 10",
        "half-diminished | 0 3 6 10 | 0 3 6 10 | 3 10",
        "major-minor | 0 3 7 11 | 0 3 7 11 | 3 11",
        "major-sixth | 0 4 7 9 | 0 4 7 9 | 4 9",
        "minor-sixth | 0 3 7 9 | 0 3 7 9 | 3 9",
        "dominant-ninth | 0 4 7 10 2 | 0 4 7 10 | 4 10",
        "major-ninth | 0 4 7 11 2 | 0 4 7 11 | 4 11",
        "minor-ninth | 0 3 7 10 2 | 0 3 7 10 | 3 10",
        "dominant-11th | 0 4 7 10 2 5 | 0 4 7 10 | 4 10",
        "major-11th | 0 4 7 11 2 5 | 0 4 7 11 | 4 11",
        "minor-11th | 0 3 7 10 2 5 | 0 3 7 10 | 3 10",
        "dominant-13th | 0 4 7 10 2 5 9 | 0 4 7 10 | 4 10",
        "major-13th | 0 4 7 11 2 5 9 | 0 4 7 11 | 4 11",
        "minor-13th | 0 3 7 10 2 5 9 | 0 3 7 10 | 3 10",
        "suspended-second | 0 2 7 | 0 2 7 | ",
        "suspended-fourth | 0 5 7 | 0 5 7 | ",
        "Neapolitan |  |  | ",
        "Italian |  |  | ",
        "French |  |  | ",
        "German |  |  | ",
        "pedal | 0 | 0 | ",
        "power | 0 7 | 0 7 | ",
        "Tristan |  |  | ",
        "other |  |  | ",
        "none |  |  | "
      })
  void kindHoldsTheTonesOfTheStandard(String kind, String all, String core, String guides) {
    Chord chord = new Chord(name("C"), ChordKind.named(kind).orElseThrow(), List.of(), null);

    assertThat(chord.pitchClasses()).containsExactlyInAnyOrderElementsOf(numbers(all));
    assertThat(chord.corePitchClasses()).containsExactlyInAnyOrderElementsOf(numbers(core));
    assertThat(chord.guidePitchClasses()).containsExactlyInAnyOrderElementsOf(numbers(guides));
    assertThat(chord.isContentKnown()).isEqualTo(all != null);
  }

  /** W3C MusicXML 4.0, element degree: value, alter, type. */
  @ParameterizedTest(name = "{0} {1} {2} sounds {3}")
  @CsvSource(
      delimiter = '|',
      value = {
        "C | major-ninth |  | 0 4 7 11 2",
        "C | dominant | add 9 -1 | 0 4 7 10 1",
        "C | dominant | add 9 1 | 0 4 7 10 3",
        "C | dominant | add 11 1 | 0 4 7 10 6",
        "C | dominant | add 13 -1 | 0 4 7 10 8",
        "C | dominant | alter 5 1 | 0 4 8 10",
        "C | dominant | alter 5 -1; add 9 -1 | 0 4 6 10 1",
        "C | major | subtract 3 0; add 4 0 | 0 7 5",
        "C | suspended-fourth | add 7 0 | 0 5 7 10",
        "C | major | add 9 0 | 0 4 7 2",
        "C | major | add 7 0 | 0 4 7 10",
        "C | minor | add 7 1 | 0 3 7 11",
        "C | minor-seventh | alter 5 -1 | 0 3 6 10",
        "C | dominant-13th | subtract 11 0 | 0 4 7 10 2 9",
        "C | power |  | 0 7",
        "Bb | half-diminished |  | 10 1 4 8",
        "F# | diminished-seventh |  | 6 9 0 3",
        "Eb | major-minor |  | 3 6 10 2",
        "G | augmented-seventh |  | 7 11 3 5",
        "C | other | add 3 0; add 5 0; add 9 0 | 0 4 7 2"
      })
  void degreesChangeTheContentAsTheStandardSays(
      String root, String kind, String degrees, String expected) {
    Chord chord =
        new Chord(name(root), ChordKind.named(kind).orElseThrow(), alterations(degrees), null);

    assertThat(chord.pitchClasses()).containsExactlyInAnyOrderElementsOf(numbers(expected));
  }

  @Test
  void thereAre33Kinds() {
    assertThat(ChordKind.values()).hasSize(33);
  }

  @Test
  void kindOtherWithoutDegreesIsUnknown() {
    assertThat(new Chord(name("C"), ChordKind.OTHER, List.of(), null).isContentKnown()).isFalse();
  }

  @Test
  void flatAndSharpFifthAlteredTogetherAreBothKept() {
    Chord chord =
        new Chord(name("C"), ChordKind.DOMINANT, alterations("alter 5 -1; alter 5 1"), null);

    assertThat(chord.pitchClasses()).containsExactly(0, 4, 6, 8, 10);
    assertThat(chord.corePitchClasses()).containsExactly(0, 4, 6, 8, 10);
  }

  @Test
  void flatAndSharpNinthOfANinthChordAreTensions() {
    Chord chord =
        new Chord(name("G"), ChordKind.DOMINANT_NINTH, alterations("alter 9 -1; alter 9 1"), null);

    assertThat(degree(chord, "Ab4")).isEqualTo("b9 WRITTEN_TENSION");
    assertThat(degree(chord, "A#4")).isEqualTo("#9 WRITTEN_TENSION");
    assertThat(degree(chord, "A4")).isEqualTo("9 NOT_IN_CHORD");
  }

  @Test
  void sixthAddedToATriadMakesASixthChord() {
    Chord chord = new Chord(name("F"), ChordKind.MAJOR, alterations("add 6 0"), null);

    assertThat(degree(chord, "D5")).isEqualTo("6 GUIDE_TONE");
    assertThat(chord.chordClass()).contains(ChordClass.MAJ6);
  }

  @Test
  void fourthInPlaceOfTheThirdMakesASuspendedSeventh() {
    Chord chord =
        new Chord(name("G"), ChordKind.DOMINANT, alterations("subtract 3 0; add 4 0"), null);

    assertThat(degree(chord, "C5")).isEqualTo("4 GUIDE_TONE");
    assertThat(degree(chord, "F5")).isEqualTo("b7 GUIDE_TONE");
    assertThat(degree(chord, "B4")).isEqualTo("3 NOT_IN_CHORD");
    assertThat(chord.chordClass()).contains(ChordClass.SUS);
  }

  /** Names as players say them; common practice, no source. */
  @ParameterizedTest(name = "{1} over {0} is {2}")
  @CsvSource({
    "C7, Db5, b9, NOT_IN_CHORD",
    "C7, C#5, b9, NOT_IN_CHORD",
    "Cmaj7, B4, 7, GUIDE_TONE",
    "Cm7, B4, n7, NOT_IN_CHORD",
    "C7, Bb4, b7, GUIDE_TONE",
    "C7, D5, 9, NOT_IN_CHORD",
    "C7, Eb5, #9, NOT_IN_CHORD",
    "C7, D#5, #9, NOT_IN_CHORD",
    "Cm7, Eb5, b3, GUIDE_TONE",
    "Cm7, D#5, b3, GUIDE_TONE",
    "Cm7, E5, n3, NOT_IN_CHORD",
    "Am7, C#5, n3, NOT_IN_CHORD",
    "Cm7b5, G5, n5, NOT_IN_CHORD",
    "C7sus4, Eb5, b3, NOT_IN_CHORD",
    "C7sus4, F5, 4, GUIDE_TONE",
    "C7, F5, 11, NOT_IN_CHORD",
    "Csus2, D5, 2, CHORD_TONE",
    "Csus4, F5, 4, CHORD_TONE",
    "Cmaj7, F#5, #11, NOT_IN_CHORD",
    "Cm7, Gb5, b5, NOT_IN_CHORD",
    "Cm7b5, Gb5, b5, CHORD_TONE",
    "Cm7b5, F#5, b5, CHORD_TONE",
    "C7, Ab5, b13, NOT_IN_CHORD",
    "C7, G#5, #5, NOT_IN_CHORD",
    "C+, G#5, #5, CHORD_TONE",
    "C7, A5, 13, NOT_IN_CHORD",
    "C6, A5, 6, GUIDE_TONE",
    "C, A5, 6, NOT_IN_CHORD",
    "Cm6, A5, 6, GUIDE_TONE",
    "Co7, A5, bb7, GUIDE_TONE",
    "Co7, Bbb5, bb7, GUIDE_TONE",
    "C7, G5, 5, CHORD_TONE",
    "C7, C5, 1, CHORD_TONE",
    "C5, E5, 3, NOT_IN_CHORD",
    "Bbm7, Db5, b3, GUIDE_TONE",
    "F#7, E5, b7, GUIDE_TONE",
    "C7/E, E4, 3, GUIDE_TONE",
    "C/D, D4, 9, NOT_IN_CHORD"
  })
  void noteIsNamedByChordAndSpelling(String symbol, String note, String name, String role) {
    assertThat(degree(chord(symbol), note)).isEqualTo(name + " " + role);
  }

  @ParameterizedTest
  @CsvSource({"NC", "CTristan"})
  void noDegreeWithoutKnownContent(String symbol) {
    assertThat(chord(symbol).degreeOf(pitch("C4"))).isEmpty();
  }

  /** The degree of a note does not depend on the key the chord stands in. */
  @ParameterizedTest
  @EnumSource(ChordKind.class)
  void transposingChordAndNoteTogetherKeepsTheDegree(ChordKind kind) {
    Chord chord = new Chord(name("D"), kind, List.of(), null);
    for (int chromatic = -11; chromatic <= 11; chromatic++) {
      Transposition by = new Transposition(Transposition.diatonicFor(chromatic), chromatic, 0);
      for (String note :
          List.of(
              "C4", "C#4", "Db4", "D4", "Eb4", "E4", "F4", "F#4", "G4", "Ab4", "A4", "Bb4", "B4")) {
        assertThat(chord.sounding(by).degreeOf(by.sounding(pitch(note))))
            .as("%s under %s by %d", note, chord, chromatic)
            .isEqualTo(chord.degreeOf(pitch(note)));
      }
    }
  }

  @ParameterizedTest(name = "{0} is {1}")
  @CsvSource({
    "C, MAJ", "C6, MAJ6", "Cmaj7, MAJ7", "C7, DOM7", "C+, DOM7", "Csus4, SUS", "C7sus4, SUS",
    "Cm, MIN", "Cm6, MIN6", "Cm7, MIN7", "Cmmaj7, MINMAJ7", "Cm7b5, HDIM7", "Co7, DIM", "C5,",
    "NC,", "CTristan,"
  })
  void classTellsWhatAChordDoesInAKey(String symbol, ChordClass expected) {
    assertThat(chord(symbol).chordClass().orElse(null)).isEqualTo(expected);
  }

  @Test
  void tensionsDoNotChangeTheClass() {
    assertThat(ChordKind.values())
        .allSatisfy(
            kind -> {
              if (kind.musicXmlName().startsWith("dominant-")) {
                assertThat(new Chord(name("E"), kind, alterations("add 9 1"), null).chordClass())
                    .contains(ChordClass.DOM7);
              }
            });
  }

  @ParameterizedTest(name = "{1} after {0}: {2}")
  @CsvSource({
    "C7, F7, true", "C7, C7, false", "C7, C7/E, false", "C7, Cm7, true", "NC, C7, true",
    "C7, NC, false", "NC, NC, false", "C#7, Db7, false", "CTristan, C7, true", "C6, Am7, true"
  })
  void changeIsAnotherRootOrOtherTones(String from, String to, boolean change) {
    assertThat(chord(to).isChangeFrom(chord(from))).isEqualTo(change);
  }

  @Test
  void firstChordIsNoChange() {
    assertThat(chord("C7").isChangeFrom(null)).isFalse();
  }

  @ParameterizedTest
  @CsvSource({"Bbm7, B♭m7", "F#m7b5, F♯ø7", "C7/E, C7/E", "NC, N.C.", "Ebmaj7, E♭maj7"})
  void symbolHasOneSpelling(String text, String symbol) {
    assertThat(chord(text).symbol()).isEqualTo(symbol);
  }

  private static String degree(Chord chord, String note) {
    ChordDegree degree = chord.degreeOf(pitch(note)).orElseThrow();
    return degree.name() + " " + degree.role();
  }

  private static List<Integer> numbers(String text) {
    return text == null
        ? List.of()
        : Arrays.stream(text.trim().split(" ")).map(Integer::valueOf).toList();
  }

  private static List<ChordAlteration> alterations(String text) {
    List<ChordAlteration> alterations = new ArrayList<>();
    if (text != null) {
      for (String one : text.split(";")) {
        String[] parts = one.trim().split(" ");
        alterations.add(
            new ChordAlteration(
                ChordAlteration.Type.valueOf(parts[0].toUpperCase(Locale.ROOT)),
                Integer.parseInt(parts[1]),
                Integer.parseInt(parts[2])));
      }
    }
    return alterations;
  }

  /** Nobody looks for an E double flat: common practice, no source. */
  @Test
  void aChordIsReadUnderItsSimplestName() {
    NoteName deepFlat = new NoteName(Step.E, -2);
    Chord chord = new Chord(deepFlat, ChordKind.MAJOR_SEVENTH, List.of(), new NoteName(Step.G, -1));

    assertThat(chord.simplest().symbol()).isEqualTo("Dmaj7/F♯");
    assertThat(chord.simplest().pitchClasses()).isEqualTo(chord.pitchClasses());
  }

  @Test
  void aChordThatIsEasyToReadStays() {
    Chord chord = new Chord(new NoteName(Step.G, -1), ChordKind.DOMINANT, List.of(), null);

    assertThat(chord.simplest()).isSameAs(chord);
  }
}
