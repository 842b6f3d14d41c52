package phrasecensus.music.phrase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import phrasecensus.music.analysis.DevelopmentSolos;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.phrase.ByMaterialRule.Reason;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.score.Syllable;

/** Tunes made up; that rests, words and long notes part a melody is common practice. */
class ByMaterialRuleTest {
  private static final ByMaterialRule RULE = ByMaterialRule.DEFAULT;

  /** Four lines of two bars: seven quarters and nothing, or a half note, before the next line. */
  private static String lines(String last) {
    StringBuilder notes = new StringBuilder();
    String[] pitches = {"C4", "D4", "E4", "F4", "G4", "E4"};
    for (int line = 0; line < 8; line++) {
      for (int i = 0; i < 6; i++) {
        notes.append(8 * line + i).append(':').append(pitches[i]).append(":1 ");
      }
      notes.append(8 * line + 6).append(":C4:").append(last).append(' ');
    }
    return notes.toString();
  }

  private static Solo tune(String last) {
    return SoloText.solo(Metre.of(4, 4), 16, lines(last), "");
  }

  /** The tune with a word under every note, a capital at the head of each line of seven. */
  private static Solo sung(Solo solo) {
    List<Note> notes = new ArrayList<>();
    for (Note note : solo.notes()) {
      String text = note.index() % 7 == 0 ? "When" : note.index() % 7 == 6 ? "sea," : "blue";
      notes.add(
          new Note(
              note.index(),
              note.onset(),
              note.length(),
              note.concert(),
              note.written(),
              note.barIndex(),
              note.tiedLengths(),
              0,
              false,
              List.of(),
              new Syllable(text, true)));
    }
    return new Solo(
        solo.description(),
        solo.bars(),
        notes,
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        List.of());
  }

  @Test
  void restsThatTellKeepTheRuleForSolos() {
    assertThat(AppliedRule.of(RULE, tune("1")))
        .isEqualTo(new AppliedRule(BreathRule.DEFAULT, Reason.RESTS));
    assertThat(RULE.reason(sung(tune("1")))).isEqualTo(Reason.RESTS);
  }

  @Test
  void wordsWithoutRestsBeforeTheirLinesAskForTheRuleForSongs() {
    assertThat(AppliedRule.of(RULE, sung(tune("2"))))
        .isEqualTo(new AppliedRule(ForSongsRule.DEFAULT, Reason.WORDS));
  }

  @Test
  void longNotesInThePlaceOfRestsAskForTheRuleForSongs() {
    assertThat(AppliedRule.of(RULE, tune("2")))
        .isEqualTo(new AppliedRule(ForSongsRule.DEFAULT, Reason.LONG_NOTES));
    assertThat(RULE.boundaries(tune("2"))).containsExactly(7, 14, 21, 28, 35, 42, 49);
  }

  @Test
  void unbrokenLineOfEvenNotesIsNoSong() {
    StringBuilder notes = new StringBuilder();
    String[] pitches = {"C4", "D4", "E4", "G4", "F4"};
    for (int i = 0; i < 128; i++) {
      notes.append(i).append("/2:").append(pitches[i % 5]).append(":1/2 ");
    }

    assertThat(RULE.reason(SoloText.solo(Metre.of(4, 4), 16, notes.toString(), "")))
        .isEqualTo(Reason.NEITHER);
  }

  @Test
  void soloWithoutNotesOrOfOneNoteHasARule() {
    assertThat(RULE.reason(SoloText.solo(Metre.of(4, 4), 1, "", ""))).isEqualTo(Reason.RESTS);
    assertThat(RULE.boundaries(sung(SoloText.solo(Metre.of(4, 4), 1, "0:C4:1", "")))).isEmpty();
  }

  @Test
  void ruleThatIsNamedIsKept() {
    assertThat(AppliedRule.of(SilenceRule.DEFAULT, tune("2")))
        .isEqualTo(new AppliedRule(SilenceRule.DEFAULT, Reason.STUDY));
    assertThat(AppliedRule.of(new GivenRule(List.of(3)), tune("2")).reason())
        .isEqualTo(Reason.MARKS);
  }

  @Test
  void numbersOfTheRulesToChooseFromAreSettingsToo() {
    PhraseRule rule = PhraseRules.parse("by-material for-songs.preferred-notes=12");

    assertThat(rule.settings())
        .containsEntry("for-songs.preferred-notes", "12.0")
        .containsEntry("for-songs.metre-bonus", "1.0")
        .containsKeys("beats-a-rest", "breath.length-weight");
    assertThat(AppliedRule.of(rule, tune("2")).rule())
        .isEqualTo(PhraseRules.parse("for-songs preferred-notes=12"));
  }

  @Test
  void numbersOutOfRangeAreRefused() {
    assertThatThrownBy(() -> PhraseRules.parse("by-material sung-share=2"))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid sung-share: 2.0 is not 0 to 1");
  }

  /** Weimar Jazz Database through the R package jazzodata, development half. */
  @Test
  void everyImprovisedSoloKeepsTheRuleForSolos() {
    Optional<Path> folder = DevelopmentSolos.folder();
    assumeTrue(folder.isPresent(), "no development solos beside the project");
    Map<Reason, Integer> reasons = new EnumMap<>(Reason.class);
    for (String song : DevelopmentSolos.table(folder.get().resolve("solos.csv")).keySet()) {
      Solo solo = DevelopmentSolos.read(folder.get().resolve("xml/" + song + ".musicxml"));
      AppliedRule rule = AppliedRule.of(RULE, solo);
      assertThat(rule.rule()).as(song).isEqualTo(BreathRule.DEFAULT);
      reasons.merge(rule.reason(), 1, Integer::sum);
    }

    assertThat(reasons.values().stream().mapToInt(Integer::intValue).sum()).isEqualTo(220);
    assertThat(reasons.get(Reason.RESTS)).isGreaterThanOrEqualTo(217);
  }
}
