package phrasecensus.music.landing;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.harmony.NoteHarmonies;
import phrasecensus.music.harmony.TonalCentre;
import phrasecensus.music.harmony.TonalCentreSpan;
import phrasecensus.music.landing.Landing.Approach;
import phrasecensus.music.landing.Landing.Kind;
import phrasecensus.music.phrase.Phrases;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/** Definitions as stated in {@link Landings}; approach classes are common practice, no source. */
class LandingsTest {
  private static final Metre FOUR_FOUR = Metre.of(4, 4);

  @Test
  void lastNoteOfEachPhraseIsALanding() {
    List<Landing> landings = find("0:C4:1 1:D4:1 2:E4:1 3:F4:1", "", 2);

    assertThat(landings).extracting(Landing::noteIndex).containsExactly(1, 3);
    assertThat(landings).extracting(Landing::kind).containsOnly(Kind.PHRASE_END);
    assertThat(landings).extracting(Landing::phraseIndex).containsExactly(0, 1);
  }

  @Test
  void noteBeforeARestOfHalfABeatInsideAPhraseIsALanding() {
    assertThat(kinds(find("0:C4:1/2 1:D4:1", ""))).containsExactly("0 BEFORE_REST", "1 PHRASE_END");
  }

  @Test
  void shorterRestIsNotationAndMakesNoLanding() {
    assertThat(kinds(find("0:C4:3/4 1:D4:1", ""))).containsExactly("1 PHRASE_END");
  }

  @Test
  void halfABeatIsThreeEighthsOfAQuarterDottedBeatInSixEight() {
    Solo solo = SoloText.solo(Metre.of(6, 8), 2, "0:C4:1 3/2:D4:3/4 9/4:E4:1/2", "");

    assertThat(kinds(find(solo))).containsExactly("2 PHRASE_END");
  }

  @Test
  void heldNoteIsLongerThanItsNeighbours() {
    assertThat(kinds(find("0:C4:1 1:D4:3/2 5/2:E4:1/2 3:F4:1", "")))
        .containsExactly("1 HELD", "3 PHRASE_END");
  }

  @Test
  void noteAsLongAsItsNeighbourIsNotHeld() {
    assertThat(kinds(find("0:C4:2 2:D4:2 4:E4:1", ""))).containsExactly("2 PHRASE_END");
  }

  @Test
  void neighboursInOtherPhrasesDoNotMatter() {
    List<Landing> landings = find("0:C4:4 4:D4:2 6:E4:1", "", 1);

    assertThat(kinds(landings)).containsExactly("0 PHRASE_END HELD", "1 HELD", "2 PHRASE_END");
  }

  @Test
  void shortNoteIsNotHeldEvenIfLonger() {
    assertThat(kinds(find("0:C4:1/2 1/2:D4:1 3/2:E4:1/2", ""))).containsExactly("2 PHRASE_END");
  }

  @Test
  void firstNoteOfANewChordOnABeatIsAnArrival() {
    assertThat(kinds(find("0:C4:1 1:D4:1 2:E4:1 3:F4:1 4:G4:1 5:A4:1", "0:Dm7 4:G7")))
        .containsExactly("4 CHORD_ARRIVAL", "5 PHRASE_END");
  }

  @Test
  void firstNoteOfAPhraseIsNoArrival() {
    assertThat(kinds(find("0:C4:1 1:D4:1 4:B3:1 5:D4:1", "0:Dm7 4:G7", 2)))
        .containsExactly("1 PHRASE_END", "3 PHRASE_END");
  }

  @Test
  void arrivalMayComeALittleLaterButOnABeat() {
    assertThat(kinds(find("0:C4:1 5:G4:1 6:A4:1", "0:Dm7 4:G7")))
        .containsExactly("0 BEFORE_REST", "1 CHORD_ARRIVAL", "2 PHRASE_END");
  }

  @Test
  void firstNoteOffTheBeatIsNoArrivalNorIsTheOneAfterIt() {
    assertThat(kinds(find("0:C4:4 9/2:G4:1/2 5:A4:1 6:B4:1", "0:Dm7 4:G7")))
        .containsExactly("0 BEFORE_REST HELD", "3 PHRASE_END");
  }

  @Test
  void noteAfterTheChordHasGoneIsNoArrivalAtIt() {
    Solo solo = SoloText.solo(FOUR_FOUR, 3, "0:C4:4 8:G4:1 9:A4:1", "0:Dm7 4:G7 8:G7");

    assertThat(kinds(find(solo))).containsExactly("0 BEFORE_REST HELD", "2 PHRASE_END");
  }

  @Test
  void firstChordAndRepeatedChordAreNoChange() {
    assertThat(kinds(find("0:C4:1 1:D4:3 4:G4:3 7:A4:1", "0:Dm7 4:Dm7")))
        .containsExactly("3 PHRASE_END");
  }

  @Test
  void beatsOfAPickupCountFromTheBarLine() {
    Solo solo =
        SoloText.solo(
            FOUR_FOUR, 1, Fraction.of(3, 2), "0:C4:1/2 1/2:D4:1 3/2:E4:1 5/2:F4:1", "0:C 1/2:G7");

    assertThat(kinds(find(solo))).containsExactly("1 CHORD_ARRIVAL", "3 PHRASE_END");
  }

  @Test
  void withoutMetreThereIsNoArrival() {
    Solo solo = SoloText.solo(Metre.FREE, 2, "0:C4:1 1:D4:3 4:G4:3 7:A4:1", "0:Dm7 4:G7");

    assertThat(kinds(find(solo))).containsExactly("3 PHRASE_END");
  }

  @Test
  void oneNoteUnderNoChordIsALanding() {
    Landing landing = find("0:C4:4", "").get(0);

    assertThat(landing.kind()).isEqualTo(Kind.PHRASE_END);
    assertThat(landing.kinds()).containsExactly(Kind.PHRASE_END, Kind.HELD);
    assertThat(landing.approach()).isEqualTo(Approach.NONE);
  }

  @Test
  void soloWithoutNotesHasNoLanding() {
    assertThat(find(SoloText.solo(FOUR_FOUR, 1, "", "0:C"))).isEmpty();
  }

  @ParameterizedTest(name = "{0} {1} {2} in C major: {3}")
  @CsvSource({
    "G4, E4, E4, REPETITION",
    "F4, D4, E4, ENCLOSURE",
    "D4, F4, E4, ENCLOSURE",
    "D#4, F4, E4, ENCLOSURE",
    "F#4, D#4, E4, ENCLOSURE",
    "G4, D#4, E4, CHROMATIC",
    "E4, D#4, E4, CHROMATIC",
    "D4, D#4, E4, CHROMATIC",
    "G4, F4, E4, STEP",
    "C4, D4, E4, STEP",
    "G4, F#4, E4, STEP",
    "F4, C4, E4, LEAP",
    "F4, C#4, E4, LEAP",
    "F4, E5, E4, LEAP"
  })
  void approachIsTheFirstThatFits(String two, String one, String target, Approach expected) {
    List<Landing> landings = find("0:" + two + ":1 1:" + one + ":1 2:" + target + ":1", "0:Cmaj7");

    assertThat(landings.get(landings.size() - 1).approach()).isEqualTo(expected);
  }

  @Test
  void semitoneFromOutsideIsAStepWhereNoCentreIsKnown() {
    assertThat(find("0:G4:1 1:D#4:1 2:E4:1", "").get(0).approach()).isEqualTo(Approach.STEP);
  }

  @Test
  void enclosureDoesNotReachIntoThePhraseBefore() {
    List<Landing> landings = find("0:F4:1 1:D4:1 2:E4:1", "", 1);

    assertThat(landings.get(1).approach()).isEqualTo(Approach.STEP);
  }

  /** Dm7 to G7, theory of guide tones: C falls to B, the third of G7; F stays as its seventh. */
  @ParameterizedTest(name = "{0} to {1} over the change to {2}: {3}")
  @CsvSource({
    "C4, B3, 4:G7, true",
    "F4, F4, 4:G7, true",
    "A4, F4, 4:G7, true",
    "C4, D4, 4:G7, false",
    "C4, C#4, 4:G7, false",
    "C4, B3, 4:Dm7, ",
    "C4, B3, 4:G5, ",
    "C4, B3, 4:NC, ",
    "C4, B3, 12:G7, "
  })
  void landingBeforeAChangeTellsWhetherAGuideToneComesNext(
      String last, String next, String change, Boolean reached) {
    List<Landing> landings = find("3:" + last + ":1 4:" + next + ":1", "0:Dm7 " + change, 1);

    assertThat(landings.get(0).nextGuideTone()).isEqualTo(reached);
  }

  @Test
  void guideToneABarAfterTheChangeIsTooLate() {
    assertThat(find("3:C4:1 8:B3:1", "0:Dm7 4:G7", 1).get(0).nextGuideTone()).isNull();
    assertThat(find("3:C4:1 15/2:B3:1/2", "0:Dm7 4:G7", 1).get(0).nextGuideTone()).isTrue();
  }

  @Test
  void lastNoteOfASoloHasNoNextGuideTone() {
    assertThat(find("3:C4:1", "0:Dm7 4:G7").get(0).nextGuideTone()).isNull();
  }

  private static List<Landing> find(String notes, String chords, Integer... boundaries) {
    return find(SoloText.solo(FOUR_FOUR, 2, notes, chords), boundaries);
  }

  private static List<Landing> find(Solo solo, Integer... boundaries) {
    List<TonalCentreSpan> centres =
        solo.chords().isEmpty()
            ? List.of()
            : List.of(
                new TonalCentreSpan(
                    Fraction.ZERO,
                    solo.length(),
                    new TonalCentre(0, TonalCentre.Mode.MAJOR),
                    1,
                    TonalCentreSpan.Source.CHORDS));
    return Landings.find(
        solo, NoteHarmonies.find(solo, true, centres), Phrases.between(solo, List.of(boundaries)));
  }

  private static List<String> kinds(List<Landing> landings) {
    return landings.stream()
        .map(
            landing ->
                landing.noteIndex()
                    + landing.kinds().stream()
                        .map(kind -> " " + kind)
                        .collect(java.util.stream.Collectors.joining()))
        .toList();
  }
}
