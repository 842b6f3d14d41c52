package phrasecensus.music.harmony;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/** The anticipation rule is stated in {@link NoteHarmonies}; common practice, no source. */
class NoteHarmoniesTest {
  private static final Metre FOUR_FOUR = Metre.of(4, 4);

  @Test
  void noteIsJudgedByTheChordAtItsOnset() {
    List<NoteHarmony> harmony = find("0:F4:1 4:E4:1", "0:Dm7 4:G7");

    assertThat(degrees(harmony)).containsExactly("b3", "13");
    assertThat(harmony).noneMatch(NoteHarmony::anticipated);
  }

  @Test
  void noteTiedOverTheBarLineFromTheLastHalfBeatBelongsToTheNextChord() {
    List<NoteHarmony> harmony = find("7/2:B4:3/2", "0:Dm7 4:G7");

    assertThat(degrees(harmony)).containsExactly("3");
    assertThat(harmony.get(0).anticipated()).isTrue();
    assertThat(harmony.get(0).chord().onset()).isEqualTo(Fraction.of(4));
  }

  @Test
  void theRuleHoldsInsideABarToo() {
    assertThat(degrees(find("3/2:B4:1", "0:Dm7 2:G7"))).containsExactly("3");
  }

  @Test
  void noteThatEndsWithTheChordIsNoAnticipation() {
    assertThat(degrees(find("7/2:B4:1/2", "0:Dm7 4:G7"))).containsExactly("13");
  }

  @Test
  void noteThatStartsEarlierIsNoAnticipation() {
    assertThat(degrees(find("10/3:B4:5/3", "0:Dm7 4:G7"))).containsExactly("13");
  }

  @Test
  void lastTripletOfABeatIsAnAnticipation() {
    assertThat(degrees(find("11/3:B4:4/3", "0:Dm7 4:G7"))).containsExactly("3");
  }

  @Test
  void withoutTheSettingTheChordAtTheOnsetJudges() {
    Solo solo = SoloText.solo(FOUR_FOUR, 2, "7/2:B4:3/2", "0:Dm7 4:G7");

    List<NoteHarmony> harmony = NoteHarmonies.find(solo, false, List.of());

    assertThat(degrees(harmony)).containsExactly("13");
  }

  @Test
  void repeatedSymbolIsNotAnticipated() {
    NoteHarmony harmony = find("7/2:B4:3/2", "0:G7 4:G7").get(0);

    assertThat(harmony.anticipated()).isFalse();
    assertThat(harmony.chord().onset()).isEqualTo(Fraction.ZERO);
  }

  @Test
  void halfOfADottedBeatCountsInSixEight() {
    Solo solo = SoloText.solo(Metre.of(6, 8), 2, "9/4:B4:3/2", "0:Dm7 3:G7");

    assertThat(degrees(NoteHarmonies.find(solo, true, List.of()))).containsExactly("3");
  }

  @ParameterizedTest(name = "chords [{0}]")
  @CsvSource({"'4:G7'", "'0:NC 4:G7'", "'0:CTristan'", "'0:NC'", "''", "'0:Dm7 2:NC'"})
  void noVerdictUnderNoChord(String chords) {
    NoteHarmony harmony = find("7/2:B4:1/2", chords).get(0);

    assertThat(harmony.hasVerdict()).isFalse();
    assertThat(harmony.degree()).isNull();
    assertThat(harmony.isCoreChordTone()).isFalse();
  }

  @Test
  void noChordIsNotAnticipated() {
    assertThat(degrees(find("7/2:B4:3/2", "0:Dm7 4:NC"))).containsExactly("13");
  }

  @Test
  void nothingIsAnticipatedFromAStretchWithoutChord() {
    assertThat(find("7/2:B4:3/2", "0:NC 4:G7").get(0).hasVerdict()).isFalse();
  }

  @Test
  void chordMayChangeInsideALongNote() {
    List<NoteHarmony> harmony = find("0:F4:6 6:F4:1", "0:Dm7 2:Db7 4:Cmaj7");

    assertThat(degrees(harmony)).containsExactly("b3", "11");
  }

  @Test
  void pickupBeforeTheFirstChordHasNoVerdict() {
    Solo solo = SoloText.solo(FOUR_FOUR, 2, Fraction.ONE, "0:G4:1 1:C5:1", "1:C6");

    assertThat(NoteHarmonies.find(solo, true, List.of()))
        .extracting(NoteHarmony::hasVerdict)
        .containsExactly(false, true);
  }

  @Test
  void anticipatedNoteLiesInTheCentreItRunsInto() {
    Solo solo = SoloText.solo(FOUR_FOUR, 2, "7/2:Eb4:3/2", "0:Cmaj7 4:Ebmaj7");
    TonalCentre c = new TonalCentre(0, TonalCentre.Mode.MAJOR);
    TonalCentre eFlat = new TonalCentre(3, TonalCentre.Mode.MAJOR);
    Fraction change = Fraction.of(4);
    List<TonalCentreSpan> spans =
        List.of(
            new TonalCentreSpan(Fraction.ZERO, change, c, 1, TonalCentreSpan.Source.CHORDS),
            new TonalCentreSpan(change, Fraction.of(8), eFlat, 1, TonalCentreSpan.Source.CHORDS));

    assertThat(NoteHarmonies.find(solo, true, spans).get(0).centre()).isEqualTo(eFlat);
    assertThat(NoteHarmonies.find(solo, true, spans).get(0).inCentreScale()).isTrue();
    assertThat(NoteHarmonies.find(solo, false, spans).get(0).centre()).isEqualTo(c);
    assertThat(NoteHarmonies.find(solo, false, spans).get(0).inCentreScale()).isFalse();
  }

  @Test
  void soloWithoutNotesHasNoHarmony() {
    assertThat(find("", "0:Dm7")).isEmpty();
  }

  private static List<NoteHarmony> find(String notes, String chords) {
    return NoteHarmonies.find(SoloText.solo(FOUR_FOUR, 2, notes, chords), true, List.of());
  }

  private static List<String> degrees(List<NoteHarmony> harmony) {
    return harmony.stream().map(h -> h.degree().name()).toList();
  }
}
