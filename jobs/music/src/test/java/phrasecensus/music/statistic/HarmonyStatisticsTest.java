package phrasecensus.music.statistic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.chord.Chord;
import phrasecensus.music.chord.ChordKind;
import phrasecensus.music.harmony.TonalCentre;
import phrasecensus.music.score.ChordSpan;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/** Chord tones as chord symbols spell them (common practice, no source); lines invented. */
class HarmonyStatisticsTest {
  @ParameterizedTest(name = "{0} {1} before E4 on beat one: {2}")
  @CsvSource({"F4, D4, 1", "D#4, F#4, 1", "G4, D4, 0", "D4, D#4, 0", "E4, F4, 0"})
  void chordToneOnABeatMayBeEnclosed(String before, String last, double expected) {
    SoloAnalysis heard = Heard.inC("3:" + before + ":1/2 7/2:" + last + ":1/2 4:E4:1", "0:C");

    assertThat(Heard.solo(heard, "enclosed_on_beat_share")).isEqualTo(expected);
  }

  @ParameterizedTest(name = "{0} over {1}")
  @CsvSource({
    "3:F4:1/2 7/2:D4:1/2 4:E4:1, 0:Dm",
    "3:F4:1/2 7/2:D4:1 9/2:E4:1, 0:C",
    "7/2:D4:1/2 4:E4:1, 0:C"
  })
  void enclosureNeedsTwoNotesAndAChordToneOnABeat(String notes, String chords) {
    assertThat(Heard.solo(Heard.inC(notes, chords), "enclosed_on_beat_share")).isNull();
  }

  @Test
  void landingsBeforeChangesAreAskedForTheNextGuideTone() {
    SoloAnalysis heard =
        Heard.inC("3:C4:1 4:B3:1 7:B3:1 8:C4:1 15:C4:1", "0:Dm7 4:G7 8:Cmaj7", 1, 3, 4);

    assertThat(Heard.solo(heard, "next_guide_tone_share")).isEqualTo(.5);
  }

  @ParameterizedTest(name = "{1} over {0} is the {2}")
  @CsvSource({
    "C7, C4, root",
    "C7, E4, third",
    "Cm7, Eb4, third",
    "Csus4, F4, third",
    "Csus2, D4, third",
    "C7, G4, fifth",
    "Cm7b5, Gb4, fifth",
    "C+, G#4, fifth",
    "C7, Bb4, seventh",
    "Cmaj7, B4, seventh",
    "C6, A4, seventh",
    "Co7, Bbb4, seventh",
    "C7, A4, other",
    "C7, Db4, other",
    "Cmaj7, F4, other"
  })
  void lastNoteIsToldByItsDegree(String chord, String pitch, String tone) {
    SoloAnalysis heard = Heard.inC("0:" + pitch + ":4", "0:" + chord);

    assertThat(Heard.phrase(heard, 0, "phrase_ends_on_" + tone)).isEqualTo(1);
    assertThat(Heard.phrase(heard, 0, "phrase_ends_on_chord_tone"))
        .isEqualTo(tone.equals("other") ? 0 : 1);
  }

  @ParameterizedTest(name = "{1} over {0}: guide tone {2}")
  @CsvSource({"C7, E4, 1", "C7, Bb4, 1", "C7, G4, 0", "C6, A4, 1", "C, E4, 1", "C5, C4, 0"})
  void guideTonesAreThirdAndSeventh(String chord, String pitch, double expected) {
    SoloAnalysis heard = Heard.inC("0:" + pitch + ":4", "0:" + chord);

    assertThat(Heard.phrase(heard, 0, "phrase_ends_on_guide_tone")).isEqualTo(expected);
  }

  @Test
  void tensionOfTheSymbolIsNoCoreChordTone() {
    Solo plain = SoloText.solo(Metre.of(4, 4), 1, "0:D4:1 1:C4:1", "");
    Chord ninth = new Chord(SoloText.name("C"), ChordKind.DOMINANT_NINTH, List.of(), null);
    Solo solo =
        new Solo(
            plain.description(),
            plain.bars(),
            plain.notes(),
            List.of(),
            List.of(new ChordSpan(Fraction.ZERO, Fraction.of(4), ninth, ninth, "C9")),
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            List.of());

    SoloAnalysis heard = Heard.inC(solo);

    assertThat(Heard.solo(heard, "written_tension_share")).isEqualTo(.5);
    assertThat(Heard.solo(heard, "chord_tone_share")).isEqualTo(.5);
    assertThat(Heard.solo(heard, "outside_share")).isZero();
  }

  @ParameterizedTest(name = "{0}: {1} of the line unexplained")
  @CsvSource({
    // passing note, neighbour, approach from either side
    "0:C4:1 1:C#4:1 2:D4:1, 0",
    "0:C4:1 1:C#4:1 2:C4:1, 0",
    "0:G4:1 1:D#4:1 2:E4:1, 0",
    "0:C4:1 1:F#4:1 2:E4:1, 0",
    // a chromatic run explains itself from its goal
    "0:F4:1 1:F#4:1 2:G4:1 3:G#4:1 4:A4:1, 0",
    "0:C4:1 1:D#4:1 2:C#4:1 3:C4:1, 0",
    // enclosed from both sides
    "0:C4:1 1:F#4:1 2:D#4:1 3:E4:1, 0",
    "0:C4:1 1:F#4:1 2:F#4:1 3:E4:1, .25",
    // left by leap, or at the end of the phrase
    "0:C4:1 1:C#4:1 2:G4:1 3:A4:1, .25",
    "0:C4:1 1:D4:1 2:E4:1 3:F#4:1, .25",
    // a step from one stranded note to another explains neither
    "0:C4:1 1:F#4:1 2:G#4:1 3:C4:1, .5"
  })
  void outsideNoteIsExplainedByAStepInside(String notes, double expected) {
    SoloAnalysis heard = Heard.inC(notes, "0:C");

    assertThat(Heard.solo(heard, "unexplained_outside_share")).isEqualTo(expected);
  }

  @Test
  void stepIntoTheNextPhraseExplainsNothing() {
    SoloAnalysis heard = Heard.inC("0:C4:1 1:C#4:1 2:D4:1 3:E4:1", "0:C", 2);

    assertThat(Heard.solo(heard, "unexplained_outside_share")).isEqualTo(.25);
    assertThat(Heard.solo(heard, "outside_share")).isEqualTo(.25);
  }

  @ParameterizedTest(name = "landing after {0} is reached by {1}")
  @CsvSource({
    "0:G4:1 1:D#4:1 2:E4:2, chromatic",
    "0:G4:1 1:F4:1 2:E4:2, step",
    "0:F4:1 1:D#4:1 2:E4:2, enclosure",
    "0:G4:1 1:A4:1 2:E4:2, leap",
    "0:G4:1 1:E4:1 2:E4:2, repetition"
  })
  void approachOfALandingIsCounted(String notes, String approach) {
    assertThat(Heard.solo(Heard.inC(notes, "0:C"), "approach_" + approach + "_share")).isEqualTo(1);
  }

  /**
   * Seven tones of a major, nine of a minor or blues centre (theory of scales; common practice).
   */
  @ParameterizedTest(name = "a line in {0} has chance {1} of 12")
  @CsvSource({"MAJOR, 7", "MINOR, 9", "BLUES, 9", "MODAL, 7"})
  void chanceIsTheSizeOfTheScale(TonalCentre.Mode mode, double tones) {
    SoloAnalysis heard =
        Heard.analyse(
            SoloText.solo(Metre.of(4, 4), 1, "0:C4:1 1:Db4:1", "0:Cm7"),
            Optional.of(new TonalCentre(0, mode)));

    assertThat(Heard.solo(heard, "centre_scale_chance")).isCloseTo(tones / 12, within(1e-12));
    assertThat(Heard.solo(heard, "centre_scale_share")).isEqualTo(.5);
  }

  @Test
  void notesWithoutChordLeaveTheDenominators() {
    SoloAnalysis heard = Heard.inC("0:C4:1 4:D4:1 8:E4:1", "0:NC 4:C 8:CTristan");

    assertThat(Heard.find(SoloStatistics.of(heard), "chord_tone_share"))
        .isEqualTo(new StatisticValue("chord_tone_share", 0.0, 1));
    assertThat(Heard.find(SoloStatistics.of(heard), "centre_scale_share").n()).isEqualTo(3);
  }

  @Test
  void anticipatedNoteIsJudgedByTheChordItReaches() {
    SoloAnalysis heard = Heard.inC("0:D4:7/2 7/2:B3:2", "0:Dm7 4:G7");

    assertThat(Heard.solo(heard, "chord_tone_share")).isEqualTo(1);
    assertThat(Heard.solo(heard, "guide_tone_at_change_share")).isEqualTo(1);
    assertThat(Heard.solo(heard, "chord_tone_at_change_share")).isEqualTo(1);
  }

  @Test
  void repeatedSymbolIsNoChange() {
    SoloAnalysis heard = Heard.inC("0:C4:1 4:E4:1", "0:C 4:C");

    assertThat(Heard.solo(heard, "chord_tone_at_change_share")).isNull();
    assertThat(Heard.solo(heard, "guide_tone_at_change_share")).isNull();
  }

  @ParameterizedTest(name = "{0} resolves {1}")
  @CsvSource({"0:C5:4 4:B4:4, 1", "0:C5:4 4:D5:4, 0"})
  void seventhFallsToTheThird(String notes, double expected) {
    assertThat(Heard.solo(Heard.inC(notes, "0:Dm7 4:G7"), "guide_tone_resolution_share"))
        .isEqualTo(expected);
  }
}
