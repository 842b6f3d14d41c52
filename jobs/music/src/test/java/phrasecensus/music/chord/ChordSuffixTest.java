package phrasecensus.music.chord;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import phrasecensus.music.pitch.NoteName;

/** Suffixes of chord symbols in the usual spellings; their notes are common practice, no source. */
class ChordSuffixTest {
  private static final NoteName C = NoteName.atFifths(0);

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "''|0 4 7",
        "m|0 3 7",
        "mi|0 3 7",
        "-|0 3 7",
        "MI7|0 3 7 10",
        "mi7|0 3 7 10",
        "min7|0 3 7 10",
        "-7|0 3 7 10",
        "M7|0 4 7 11",
        "MA7|0 4 7 11",
        "Maj7|0 4 7 11",
        "Δ|0 4 7 11",
        "^9|0 2 4 7 11",
        "j7|0 4 7 11",
        "maj7#11|0 4 6 7 11",
        "maj7(♯5)|0 4 8 11",
        "+maj7|0 4 8 11",
        "7#9b13|0 3 4 7 8 10",
        "7(b9,#11)|0 1 4 6 7 10",
        "7 b9|0 1 4 7 10",
        "7-5|0 4 6 10",
        "+7|0 4 8 10",
        "7+|0 4 8 10",
        "aug7|0 4 8 10",
        "+5|0 4 8",
        "9#5|0 2 4 8 10",
        "-7b5|0 3 6 10",
        "m7(b5)|0 3 6 10",
        "ø|0 3 6 10",
        "ø9|0 2 3 6 10",
        "m9b5|0 2 3 6 10",
        "dim|0 3 6",
        "o7|0 3 6 9",
        "dim(maj7)|0 3 6 11",
        "mM7|0 3 7 11",
        "m(maj7)|0 3 7 11",
        "-Δ7|0 3 7 11",
        "minmaj9|0 2 3 7 11",
        "6|0 4 7 9",
        "6/9|0 2 4 7 9",
        "69|0 2 4 7 9",
        "6(9)|0 2 4 7 9",
        "m6/9|0 2 3 7 9",
        "add9|0 2 4 7",
        "(add9)|0 2 4 7",
        "madd9|0 2 3 7",
        "add2|0 2 4 7",
        "m7(11)|0 3 5 7 10",
        "sus|0 5 7",
        "sus4|0 5 7",
        "sus2|0 2 7",
        "4|0 5 7",
        "5|0 7",
        "no3|0 7",
        "7sus|0 5 7 10",
        "7sus4(b9)|0 1 5 7 10",
        "9sus4|0 2 5 7 10",
        "13sus4|0 2 5 7 9 10",
        "maj7sus4|0 5 7 11",
        "13b9|0 1 2 4 5 7 9 10",
        "7alt|0 1 3 4 6 8 10",
        "alt|0 1 3 4 6 8 10",
        "dom7|0 4 7 10",
      })
  void aSuffixMeansItsNotes(String written, String pitchClasses) {
    ChordSuffix suffix = ChordSuffix.read(written == null ? "" : written).orElseThrow();

    Chord chord = new Chord(C, suffix.kind(), suffix.alterations(), null);

    assertThat(
            String.join(
                " ", new TreeSet<>(chord.pitchClasses()).stream().map(Object::toString).toList()))
        .satisfies(
            found ->
                assertThat(numbers(found))
                    .containsExactlyInAnyOrderElementsOf(numbers(pitchClasses)));
  }

  private static List<Integer> numbers(String text) {
    return List.of(text.split(" ")).stream().map(Integer::valueOf).toList();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "Intro", "/", "%", "2", "blue", "7/9", "maj7xyz", "m5", "-5", "N.C.", "#", "minor-7",
        "maj-9"
      })
  void whatIsNotPlainMeansNothing(String written) {
    assertThat(ChordSuffix.read(written)).isEmpty();
  }

  private static ChordAlteration add(int value, int alter) {
    return new ChordAlteration(ChordAlteration.Type.ADD, value, alter);
  }

  private static ChordAlteration no(int value) {
    return new ChordAlteration(ChordAlteration.Type.SUBTRACT, value, 0);
  }

  /** What programs spell with degrees has a usual name. */
  @Test
  void symbolsAreNamedAsMusiciansWriteThem() {
    assertThat(
            new Chord(NoteName.atFifths(-2), ChordKind.SUSPENDED_FOURTH, List.of(add(7, 0)), null)
                .symbol())
        .isEqualTo("B♭7sus4");
    assertThat(new Chord(C, ChordKind.MAJOR, List.of(add(7, 1)), null).symbol()).isEqualTo("Cmaj7");
    assertThat(
            new Chord(
                    C,
                    ChordKind.MAJOR,
                    List.of(new ChordAlteration(ChordAlteration.Type.ALTER, 7, 1)),
                    null)
                .symbol())
        .isEqualTo("Cmaj7");
    assertThat(
            new Chord(NoteName.atFifths(-4), ChordKind.MAJOR_SIXTH, List.of(add(9, 0)), null)
                .symbol())
        .isEqualTo("A♭6/9");
    assertThat(
            new Chord(
                    NoteName.atFifths(2),
                    ChordKind.DOMINANT,
                    List.of(
                        new ChordAlteration(ChordAlteration.Type.ALTER, 5, 0), no(3), add(4, 0)),
                    null)
                .symbol())
        .isEqualTo("D7sus4");
    assertThat(new Chord(C, ChordKind.DOMINANT, List.of(add(9, 0), add(11, 1)), null).symbol())
        .isEqualTo("C9(♯11)");
    assertThat(
            new Chord(C, ChordKind.SUSPENDED_FOURTH, List.of(add(7, 0), add(9, 0)), null).symbol())
        .isEqualTo("C9sus4");
    ChordSuffix altered = ChordSuffix.read("7alt").orElseThrow();
    assertThat(new Chord(C, altered.kind(), altered.alterations(), null).symbol())
        .isEqualTo("C7alt");
    assertThat(new Chord(C, ChordKind.MAJOR, List.of(add(9, 0)), null).symbol())
        .isEqualTo("C(add9)");
  }

  @Test
  void aQualityThatCouldNotBeReadIsShownAsItStands() {
    assertThat(Chord.unread(C, "blue", null).symbol()).isEqualTo("Cblue");
    assertThat(new Chord(C, ChordKind.OTHER, List.of(), null).symbol()).isEqualTo("C?");
    assertThat(Chord.unread(C, "blue", null).isContentKnown()).isFalse();
    assertThat(ChordText.chord("Cblue/E", "other", List.of()).orElseThrow())
        .isEqualTo(Chord.unread(C, "blue", NoteName.atFifths(4)));
  }

  /** Every name that stands for degrees is read back to the same notes. */
  @Test
  void namesAreReadBack() {
    for (ChordKind kind : ChordKind.values()) {
      for (List<ChordAlteration> changes :
          List.of(
              List.of(add(7, 0)),
              List.of(add(7, 1)),
              List.of(add(6, 0)),
              List.of(add(9, 0)),
              List.of(add(9, 0), add(11, 0)),
              List.of(no(3), add(4, 0)),
              List.of(add(7, 0), add(9, 0), add(13, 0)))) {
        if (kind.isContentKnown() && kind != ChordKind.PEDAL && kind != ChordKind.OTHER) {
          Chord chord = new Chord(C, kind, changes, null);

          Chord read =
              ChordText.chord(chord.symbol(), kind.musicXmlName(), chord.pitchClasses())
                  .orElseThrow(() -> new AssertionError(kind + " " + changes + chord.symbol()));

          assertThat(read.pitchClasses()).as(chord.symbol()).isEqualTo(chord.pitchClasses());
        }
      }
    }
  }
}
