package phrasecensus.music.analysis;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.score.Metre;

/** Voice leading of guide tones as jazz theory primers teach it (common practice, no source). */
class GuideTonesTest {
  @ParameterizedTest(name = "{1} over {0}: {2} opportunities, {3} resolved")
  @CsvSource({
    // seventh of ii falls a semitone to the third of V
    "0:Dm7 4:G7, 3:C5:1 4:B4:1, 1, 1",
    // seventh of V falls a semitone to the third of I
    "0:G7 4:Cmaj7, 3:F4:1 4:E4:1, 1, 1",
    // seventh of V falls a tone to the flat third of i
    "0:G7 4:Cm6, 3:F4:1 4:Eb4:1, 1, 1",
    "0:Dm7b5 4:G7, 3:C5:1 4:B4:1, 1, 1",
    // third of the tritone substitute falls a semitone to the third of I
    "0:Db7 4:Cmaj7, 3:F4:1 4:E4:1, 1, 1",
    // another octave is no voice leading
    "0:Dm7 4:G7, 3:C5:1 4:B3:1, 1, 0",
    "0:Dm7 4:G7, 3:C5:1 4:D5:1, 1, 0",
    // one note between
    "0:Dm7 4:G7, 3:C5:1 4:D5:1 5:B4:1, 1, 0",
    // a bar after the change and later is too late
    "0:Dm7 4:G7, 3:C5:1 7:B4:1, 1, 1",
    "0:Dm7 4:G7, 3:C5:1 8:B4:1, 1, 0",
    "0:Dm7 4:G7, 3:C5:1, 1, 0",
    // not the seventh, not the last note, not a falling fifth, no third to go to
    "0:Dm7 4:G7, 3:F4:1 4:F4:1, 0, 0",
    "0:Dm7 4:G7, 2:C5:1 3:A4:1 4:B4:1, 0, 0",
    "0:Dm7 4:A7, 3:C5:1 4:C#5:1, 0, 0",
    "0:G7 4:Csus4, 3:F4:1 4:E4:1, 0, 0",
    "0:G7 4:NC, 3:F4:1 4:E4:1, 0, 0",
    // with anticipation the tied note belongs to the next chord
    "0:Dm7 4:G7, 3:C5:1/2 7/2:B4:3/2, 1, 1"
  })
  void resolutionIsCounted(String chords, String notes, int opportunities, int resolved) {
    assertThat(GuideTones.resolutions(analyse(notes, chords)))
        .isEqualTo(new GuideTones.Resolutions(opportunities, resolved));
  }

  @ParameterizedTest(name = "{1} over {0}: {2} changes, {3} reached")
  @CsvSource({
    "0:Dm7 4:G7, 0:F4:4 4:B4:1, 1, 1",
    "0:Dm7 4:G7, 0:F4:4 4:F4:1, 1, 1",
    "0:Dm7 4:G7, 0:F4:4 4:G4:1, 1, 0",
    "0:Dm7 4:G7, 0:F4:4 5:A4:1 6:B4:1, 1, 0",
    "0:Dm7 4:Dm7, 0:F4:4 4:F4:1, 0, 0",
    "0:Dm7 4:G5, 0:F4:4 4:B4:1, 0, 0",
    "0:Dm7 4:G7, 0:F4:4, 0, 0",
    "0:Dm7 4:G7, 7/2:B4:3/2 5:A4:1, 1, 1",
    "0:Dm7 4:G7 8:Cmaj7, 4:B4:1 8:E4:1 9:B4:1, 2, 2"
  })
  void guideTonesAtChangesAreCounted(String chords, String notes, int changes, int reached) {
    assertThat(GuideTones.atChanges(analyse(notes, chords)))
        .isEqualTo(new GuideTones.AtChanges(changes, reached));
  }

  @Test
  void soloWithoutNotesOrChordsHasNone() {
    assertThat(GuideTones.atChanges(analyse("", ""))).isEqualTo(new GuideTones.AtChanges(0, 0));
    assertThat(GuideTones.resolutions(analyse("0:C4:1", "")))
        .isEqualTo(new GuideTones.Resolutions(0, 0));
  }

  private static SoloAnalysis analyse(String notes, String chords) {
    return SoloAnalyser.analyse(
        SoloText.solo(Metre.of(4, 4), 3, notes, chords),
        new AnalysisSettings(new WholePhraseRule(), true, Optional.empty()));
  }
}
