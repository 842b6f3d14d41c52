package phrasecensus.music.chord;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import phrasecensus.music.pitch.NoteName;

class ChordTextTest {
  private static final List<ChordAlteration> SOME =
      List.of(
          new ChordAlteration(ChordAlteration.Type.ADD, 9, 0),
          new ChordAlteration(ChordAlteration.Type.ADD, 9, -1),
          new ChordAlteration(ChordAlteration.Type.ADD, 11, 1),
          new ChordAlteration(ChordAlteration.Type.ALTER, 5, -1),
          new ChordAlteration(ChordAlteration.Type.SUBTRACT, 3, 0));

  /** Reading what was spelled gives the same symbol and the same notes. */
  @Test
  void everySpellingIsReadBack() {
    Random dice = new Random(11);
    for (ChordKind kind : ChordKind.values()) {
      for (int i = 0; i < 40; i++) {
        List<ChordAlteration> alterations =
            kind == ChordKind.NONE
                ? List.of()
                : IntStream.range(0, dice.nextInt(3))
                    .mapToObj(k -> SOME.get(dice.nextInt(5)))
                    .distinct()
                    .toList();
        NoteName root = kind == ChordKind.NONE ? null : NoteName.atFifths(dice.nextInt(15) - 7);
        NoteName bass =
            kind == ChordKind.NONE || dice.nextBoolean()
                ? null
                : NoteName.atFifths(dice.nextInt(15) - 7);
        Chord chord = new Chord(root, kind, alterations, bass);

        Chord read =
            ChordText.chord(chord.symbol(), kind.musicXmlName(), chord.pitchClasses())
                .orElseThrow();

        assertThat(read.symbol()).isEqualTo(chord.symbol());
        assertThat(read.bass()).isEqualTo(bass);
        assertThat(read.pitchClasses()).as(chord.symbol()).isEqualTo(chord.pitchClasses());
      }
    }
  }

  /** MusicXML says alter for a degree that the kind has and add for one that it lacks. */
  @Test
  void aSignAltersWhatIsThereAndAddsWhatIsNot() {
    assertThat(ChordText.chord("C7(♭9)", "dominant", List.of(0, 1, 4, 7, 10)).orElseThrow())
        .extracting(Chord::alterations)
        .isEqualTo(List.of(new ChordAlteration(ChordAlteration.Type.ADD, 9, -1)));
    assertThat(ChordText.chord("C7(♭5)", "dominant", List.of(0, 4, 6, 10)).orElseThrow())
        .extracting(Chord::alterations)
        .isEqualTo(List.of(new ChordAlteration(ChordAlteration.Type.ALTER, 5, -1)));
  }

  @Test
  void otherTextsAreNoChords() {
    assertThat(ChordText.chord("H7", "dominant", List.of())).isEmpty();
    assertThat(ChordText.chord("C7", "minor", List.of())).isEmpty();
    assertThat(ChordText.chord("C7(blue)", "dominant", List.of())).isEmpty();
    assertThat(ChordText.chord("C", "no kind", List.of())).isEmpty();
  }
}
