package phrasecensus.music.harmony;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.harmony.TonalCentre.Mode;
import phrasecensus.music.harmony.TonalCentreSpan.Source;
import phrasecensus.music.score.KeyChange;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/** Progressions are common practice (cadences, blues, modulation, modal vamp); no source. */
class TonalCentreFinderTest {
  private static final Metre FOUR_FOUR = Metre.of(4, 4);

  @Test
  void modulationGivesThreeSpansWithoutGaps() {
    TonalCentres centres =
        find(
            16,
            "0:Cmaj7 8:Dm7 12:G7 16:Cmaj7 24:Fm7 28:Bb7 32:Ebmaj7 40:Fm7 44:Bb7 48:Ebmaj7 56:Dm7"
                + " 60:G7 62:Cmaj7");

    assertThat(words(centres)).containsExactly("0-24 C MAJOR", "24-56 Eb MAJOR", "56-64 C MAJOR");
    assertThat(centres.spans()).allMatch(span -> span.margin() > 0);
    assertThat(centres.spans()).allMatch(span -> span.source() == Source.CHORDS);
    assertThat(centres.whole()).isEqualTo(new TonalCentre(0, Mode.MAJOR));
  }

  @Test
  void twelveBarBluesHasABluesCentre() {
    TonalCentres centres = find(12, "0:F7 16:Bb7 24:F7 32:C7 36:Bb7 40:F7 44:C7");

    assertThat(words(centres)).containsExactly("0-48 F BLUES");
    assertThat(centres.whole()).isEqualTo(new TonalCentre(5, Mode.BLUES));
  }

  @Test
  void minorBluesHasAMinorCentre() {
    assertThat(find(12, "0:Cm7 16:Fm7 24:Cm7 32:Ab7 36:G7 40:Cm7 44:G7").whole())
        .isEqualTo(new TonalCentre(0, Mode.MINOR));
  }

  @Test
  void vampsOfEightBarsAreModalCentres() {
    TonalCentres centres = find(32, "0:Dm7 64:Ebm7 96:Dm7");

    assertThat(words(centres)).containsExactly("0-64 D MODAL", "64-96 Eb MODAL", "96-128 D MODAL");
    assertThat(centres.whole()).isEqualTo(new TonalCentre(2, Mode.MODAL));
  }

  @Test
  void signatureTellsTheModeOfAVamp() {
    assertThat(modeOfVamp("0:Dm7", -1)).isEqualTo(CentreScale.AEOLIAN);
    assertThat(modeOfVamp("0:Ebmaj7", -3)).isEqualTo(CentreScale.IONIAN);
    assertThat(modeOfVamp("0:D7sus4", 1)).isEqualTo(CentreScale.MIXOLYDIAN);
  }

  @Test
  void signatureWithoutSharpsOrFlatsOrAgainstTheChordLeavesTheModeToTheChord() {
    assertThat(modeOfVamp("0:Dm7", 0)).isNull();
    assertThat(modeOfVamp("0:Dm7", 2)).isNull();
  }

  private static CentreScale modeOfVamp(String chords, int fifths) {
    Solo solo = SoloText.solo(FOUR_FOUR, 16, "", chords);
    Solo signed =
        new Solo(
            solo.description(),
            solo.bars(),
            solo.notes(),
            solo.graceNotes(),
            solo.chords(),
            List.of(new KeyChange(Fraction.ZERO, fifths, fifths, null)),
            solo.tempi(),
            solo.marks(),
            solo.unknownSpans(),
            solo.unpitchedOnsets());
    return TonalCentreFinder.find(signed, Optional.empty()).spans().get(0).scale();
  }

  @Test
  void repeatedSymbolsAreOneLongChord() {
    TonalCentres once = find(16, "0:Dm7");
    TonalCentres often = find(16, "0:Dm7 8:Dm7 20:Dm7 40:Dm7/A");

    assertThat(often).isEqualTo(once);
    assertThat(words(often)).containsExactly("0-64 D MODAL");
  }

  @Test
  void minorChordWithItsDominantIsAMinorCentre() {
    assertThat(words(find(16, "0:Dm7 32:A7 36:Dm7"))).containsExactly("0-64 D MINOR");
  }

  @Test
  void suspendedChordThatIsNeverLedOnIsACentre() {
    assertThat(words(find(16, "0:D7sus4 16:F7sus4 32:D7sus4")))
        .containsExactly("0-16 D MODAL", "16-32 F MODAL", "32-64 D MODAL");
  }

  @Test
  void suspendedChordThatResolvesIsADominant() {
    assertThat(words(find(12, "0:G7sus4 8:G7 16:Cmaj7 32:G7sus4 40:Cmaj7")))
        .containsExactly("0-48 C MAJOR");
    // The chart goes round: its last chord leads back to the first.
    assertThat(words(find(12, "0:Cmaj7 16:Dm7 24:G7sus4"))).containsExactly("0-48 C MAJOR");
  }

  /**
   * Made up: one chorus alone, as charts write it; the chords before its end are those of C minor.
   */
  @Test
  void chartOfOneChorusRestsWhereItsLastCadenceLeads() {
    String[] bars = {"Dm7b5", "G7", "Abmaj7", "G7", "Dm7b5", "G7", "Bb7", "Ebmaj7"};

    assertThat(find(8, cycle(bars, 1)).whole()).isEqualTo(new TonalCentre(3, Mode.MAJOR));
  }

  @Test
  void functionalTuneOfDominantsIsNoBlues() {
    String[] bars = {"F7", "D7", "Gm7", "C7", "F7", "Bbmaj7", "C7", "F7"};
    TonalCentres centres = find(16, cycle(bars, 2));

    assertThat(centres.whole()).isEqualTo(new TonalCentre(5, Mode.MAJOR));
  }

  @Test
  void sixteenBarsOfTonicAndSubdominantSeventhsAreABlues() {
    assertThat(find(16, "0:F7 16:Bb7 24:F7 32:C7 36:Bb7 40:C7 44:Bb7 48:C7 52:Bb7 56:F7").whole())
        .isEqualTo(new TonalCentre(5, Mode.BLUES));
  }

  @Test
  void sevenBarsAreNoVamp() {
    assertThat(words(find(7, "0:Dm7"))).containsExactly("0-28 D MINOR");
  }

  @Test
  void oneChordGivesItsRootAndAModeByItsQuality() {
    assertThat(words(find(2, "0:Fmaj7"))).containsExactly("0-8 F MAJOR");
    assertThat(words(find(2, "0:F7"))).containsExactly("0-8 F BLUES");
    assertThat(words(find(2, "0:Fm6"))).containsExactly("0-8 F MINOR");
  }

  @Test
  void barsBeforeTheFirstChordAndWithoutChordLieInTheCentreAround() {
    assertThat(words(find(6, "8:Dm7 12:G7 16:NC 20:Cmaj7"))).containsExactly("0-24 C MAJOR");
  }

  @Test
  void powerChordsAloneLeaveTheCentreToTheNotes() {
    TonalCentres centres = find(2, "0:C5");

    assertThat(centres.whole()).isEqualTo(TonalCentre.UNKNOWN);
    assertThat(centres.spans().get(0).source()).isEqualTo(Source.NONE);
  }

  @Test
  void transposingTheSoloMovesAllCentres() {
    TonalCentres inF = find(12, "0:F7 16:Bb7 24:F7 28:D7 32:Gm7 36:C7 40:F7 44:C7");
    TonalCentres inG = find(12, "0:G7 16:C7 24:G7 28:E7 32:Am7 36:D7 40:G7 44:D7");

    assertThat(inG.whole().tonic()).isEqualTo((inF.whole().tonic() + 2) % 12);
    assertThat(inG.spans()).hasSameSizeAs(inF.spans());
  }

  /** Made up: the line of chords stays in C minor, each chorus comes to rest on Eb. */
  @Test
  void cadencesAtTheEndsOfChorusesOutweighTheCentreAround() {
    String[] bars = {"Dm7b5", "G7", "Abmaj7", "G7", "Dm7b5", "G7", "Bb7", "Ebmaj7"};

    TonalCentres centres = find(16, cycle(bars, 2));

    assertThat(words(centres)).containsExactly("0-64 C MINOR");
    assertThat(centres.whole()).isEqualTo(new TonalCentre(3, Mode.MAJOR));
  }

  @Test
  void secondDegreeOfATurnaroundIsNoPlaceOfRest() {
    String[] bars = {"Cmaj7", "Am7", "Dm7", "G7", "Cmaj7", "Cmaj7", "A7", "Dm7"};

    assertThat(find(16, cycle(bars, 2)).whole()).isEqualTo(new TonalCentre(0, Mode.MAJOR));
  }

  private static String cycle(String[] bars, int times) {
    StringBuilder chords = new StringBuilder();
    for (int i = 0; i < times * bars.length; i++) {
      chords.append(4 * i).append(':').append(bars[i % bars.length]).append(' ');
    }
    return chords.toString();
  }

  @Test
  void keyOfTheStudyIsOneSpanWhereNoChordTellsCentres() {
    Key key = Key.parse("D dorian").orElseThrow();
    Solo solo = SoloText.solo(FOUR_FOUR, 4, "0:G4:1", "0:NC");

    TonalCentres centres = TonalCentreFinder.find(solo, Optional.of(key));

    assertThat(centres.whole()).isEqualTo(new TonalCentre(2, Mode.MODAL));
    assertThat(centres.scale()).isEqualTo(CentreScale.DORIAN);
    assertThat(centres.spans())
        .containsExactly(
            new TonalCentreSpan(
                Fraction.ZERO, Fraction.of(16), key.centre(), 0, Source.STUDY, CentreScale.DORIAN));
  }

  private static TonalCentres find(int bars, String chords) {
    return TonalCentreFinder.find(SoloText.solo(FOUR_FOUR, bars, "", chords), Optional.empty());
  }

  private static List<String> words(TonalCentres centres) {
    String[] names = {"C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"};
    return centres.spans().stream()
        .map(
            span ->
                span.onset()
                    + "-"
                    + span.end()
                    + " "
                    + names[span.centre().tonic()]
                    + " "
                    + span.centre().mode())
        .toList();
  }
}
