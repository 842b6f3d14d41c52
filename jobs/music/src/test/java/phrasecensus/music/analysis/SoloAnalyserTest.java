package phrasecensus.music.analysis;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import phrasecensus.music.harmony.Key;
import phrasecensus.music.harmony.TonalCentre;
import phrasecensus.music.harmony.TonalCentre.Mode;
import phrasecensus.music.harmony.TonalCentreSpan.Source;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

class SoloAnalyserTest {
  private static final Metre FOUR_FOUR = Metre.of(4, 4);
  private static final AnalysisSettings SETTINGS =
      new AnalysisSettings(new WholePhraseRule(), true, Optional.empty());

  @Test
  void everythingIsHeardTogether() {
    SoloAnalysis analysis =
        analyse("0:F4:1 1:A4:1 2:C5:1 3:E5:1 4:F5:1/2 9/2:D5:1/2 5:B4:1", "0:Dm7 4:G7 8:Cmaj7");

    assertThat(analysis.centre()).isEqualTo(new TonalCentre(0, Mode.MAJOR));
    assertThat(analysis.centres()).hasSize(1);
    assertThat(analysis.harmony()).hasSize(7).allMatch(h -> h.inCentreScale());
    assertThat(analysis.phrases()).hasSize(1);
    assertThat(analysis.landings()).extracting(l -> l.noteIndex()).containsExactly(4, 6);
  }

  @Test
  void emptySoloHasNothing() {
    Solo solo = SoloText.solo(FOUR_FOUR, 0, "", "");

    SoloAnalysis analysis = SoloAnalyser.analyse(solo, SETTINGS);

    assertThat(analysis.centres()).isEmpty();
    assertThat(analysis.centre()).isEqualTo(TonalCentre.UNKNOWN);
    assertThat(analysis.harmony()).isEmpty();
    assertThat(analysis.phrases()).isEmpty();
    assertThat(analysis.landings()).isEmpty();
  }

  @Test
  void barsOfSilenceHaveAnUnknownCentre() {
    SoloAnalysis analysis = analyse("", "");

    assertThat(analysis.centres()).hasSize(1);
    assertThat(analysis.centres().get(0).source()).isEqualTo(Source.NONE);
    assertThat(analysis.centres().get(0).end()).isEqualTo(Fraction.of(16));
    assertThat(analysis.centre()).isEqualTo(TonalCentre.UNKNOWN);
  }

  @Test
  void chordsWithoutNotesStillHaveACentre() {
    assertThat(analyse("", "0:Dm7 4:G7 8:Cmaj7").centre())
        .isEqualTo(new TonalCentre(0, Mode.MAJOR));
  }

  @Test
  void keyOfTheStudyIsTheCentreAndLocalCentresAreStillFound() {
    Key key = Key.parse("A minor").orElseThrow();
    SoloAnalysis analysis =
        SoloAnalyser.analyse(
            SoloText.solo(FOUR_FOUR, 4, "0:G#4:1", "0:Dm7 4:G7 8:Cmaj7"),
            new AnalysisSettings(new WholePhraseRule(), true, Optional.of(key)));

    assertThat(analysis.centre()).isEqualTo(key.centre());
    assertThat(analysis.centreSource()).isEqualTo(Source.STUDY);
    assertThat(analysis.centres()).hasSize(1);
    assertThat(analysis.centres().get(0).centre()).isEqualTo(new TonalCentre(0, Mode.MAJOR));
    assertThat(analysis.centres().get(0).source()).isEqualTo(Source.CHORDS);
  }

  @Test
  void linesAloneAreReadByTheirNotes() {
    SoloAnalysis analysis =
        analyse("0:C4:2 2:D4:1 3:E4:1 4:F4:1 5:G4:2 7:A4:1 8:B4:1 9:C5:4", "0:NC");

    assertThat(analysis.centre()).isEqualTo(new TonalCentre(0, Mode.MAJOR));
    assertThat(analysis.centres().get(0).source()).isEqualTo(Source.NOTES);
  }

  @Test
  void sameSoloGivesTheSameAnalysis() {
    String notes = "0:F4:1 1:A4:1 2:C5:1 3:E5:1 4:F5:1/2 9/2:D5:1/2 5:B4:1";
    assertThat(List.of(analyse(notes, "0:Dm7 4:G7")))
        .isEqualTo(List.of(analyse(notes, "0:Dm7 4:G7")));
  }

  private static SoloAnalysis analyse(String notes, String chords) {
    return SoloAnalyser.analyse(SoloText.solo(FOUR_FOUR, 4, notes, chords), SETTINGS);
  }
}
