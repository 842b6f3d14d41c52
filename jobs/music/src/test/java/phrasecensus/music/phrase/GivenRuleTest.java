package phrasecensus.music.phrase;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class GivenRuleTest {
  @Test
  void phrasesBeginOnTheMarkedNotes() {
    List<Phrase> phrases = new GivenRule(List.of(0, 5)).phrases(Tunes.of(Tunes.M));

    assertThat(phrases).extracting(Phrase::firstNote).containsExactly(0, 5);
    assertThat(phrases).extracting(Phrase::lastNote).containsExactly(4, 9);
  }

  @Test
  void marksInAnyOrderTwiceOrOutsideTheLineMakeNoOtherPhrases() {
    assertThat(new GivenRule(List.of(5, 99, 2, 5, 10)).boundaries(Tunes.of(Tunes.M)))
        .containsExactly(2, 5);
  }

  @Test
  void aLineWithoutNotesOrMarksHasNoBoundary() {
    assertThat(new GivenRule(List.of(0, 1)).boundaries(Tunes.of(""))).isEmpty();
    assertThat(new GivenRule(List.of()).boundaries(Tunes.of(Tunes.M))).isEmpty();
  }
}
