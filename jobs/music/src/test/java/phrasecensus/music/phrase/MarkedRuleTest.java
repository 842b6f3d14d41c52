package phrasecensus.music.phrase;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import phrasecensus.music.score.Mark;
import phrasecensus.music.score.Mark.Kind;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/** Meaning of slurs, breath marks and fermatas: common practice, no source. */
class MarkedRuleTest {
  private static final Solo LINE =
      Tunes.of("0:1:60 1:1:62 2:1:64 3:1:65 4:1:67 5:1:65 6:1:64 7:1:62 9:1:60 10:1:62");

  @Test
  void aSlurOverFourNotesIsAPhrase() {
    assertThat(boundaries(mark(Kind.SLUR, 2, 5))).containsExactly(2, 6);
  }

  @Test
  void aSlurOverTwoNotesIsArticulation() {
    assertThat(boundaries(mark(Kind.SLUR, 2, 3))).isEmpty();
  }

  @Test
  void aSlurWithinASlurIsArticulation() {
    assertThat(boundaries(mark(Kind.SLUR, 0, 7), mark(Kind.SLUR, 2, 5))).containsExactly(8);
  }

  @Test
  void slursThatShareANoteMeetOnIt() {
    assertThat(boundaries(mark(Kind.SLUR, 0, 4), mark(Kind.SLUR, 4, 7))).containsExactly(4, 8);
  }

  @Test
  void aBracketOverTwoNotesIsAPhrase() {
    assertThat(boundaries(mark(Kind.BRACKET, 2, 3))).containsExactly(2, 4);
  }

  @Test
  void breathCaesuraAndFermataEndAPhraseAfterTheirNote() {
    assertThat(
            boundaries(mark(Kind.BREATH, 1, 1), mark(Kind.CAESURA, 3, 3), mark(Kind.FERMATA, 5, 5)))
        .containsExactly(2, 4, 6);
  }

  @Test
  void aFermataOnARestEndsThePhraseBeforeIt() {
    assertThat(boundaries(mark(Kind.FERMATA, 8, 8))).containsExactly(8);
  }

  @Test
  void sectionsAreNotPhrases() {
    assertThat(boundaries(mark(Kind.REHEARSAL, 4, 4), mark(Kind.DOUBLE_BAR, 4, 4))).isEmpty();
  }

  @Test
  void aMarkOnTheLastNoteOrBeforeTheFirstAddsNothing() {
    assertThat(boundaries(mark(Kind.FERMATA, 10, 10))).isEmpty();
    assertThat(MarkedRule.DEFAULT.boundaries(Tunes.withMarks(Tunes.of("1:1:60"), marks(0))))
        .isEmpty();
  }

  @Test
  void aLineWithoutMarksInsideOrWithAnArticulationAloneIsNotMarked() {
    assertThat(isMarked()).isFalse();
    assertThat(isMarked(mark(Kind.SLUR, 2, 3), mark(Kind.FERMATA, 10, 10))).isFalse();
    assertThat(isMarked(mark(Kind.REHEARSAL, 4, 4), mark(Kind.DOUBLE_BAR, 4, 4))).isFalse();
  }

  @Test
  void anArcOverTheWholeLineOrABreathInsideMarksIt() {
    assertThat(isMarked(mark(Kind.SLUR, 0, 10))).isTrue();
    assertThat(isMarked(mark(Kind.BREATH, 5, 5))).isTrue();
  }

  @Test
  void thePhrasesOfALineWithoutMarksAreFoundByTheMusic() {
    AppliedRule applied = AppliedRule.of(MarkedRule.DEFAULT, LINE);

    assertThat(applied.reason()).isEqualTo(ByMaterialRule.Reason.NO_MARKS);
    assertThat(applied.rule()).isNotInstanceOf(MarkedRule.class);
    assertThat(
            AppliedRule.of(
                MarkedRule.DEFAULT, Tunes.withMarks(LINE, List.of(mark(Kind.BREATH, 5, 5)))))
        .isEqualTo(new AppliedRule(MarkedRule.DEFAULT, ByMaterialRule.Reason.STUDY));
  }

  private static boolean isMarked(Mark... marks) {
    return MarkedRule.DEFAULT.isMarked(Tunes.withMarks(LINE, List.of(marks)));
  }

  private static List<Integer> boundaries(Mark... marks) {
    return MarkedRule.DEFAULT.boundaries(Tunes.withMarks(LINE, List.of(marks)));
  }

  private static List<Mark> marks(long at) {
    return List.of(mark(Kind.BREATH, at, at));
  }

  private static Mark mark(Kind kind, long onset, long end) {
    return new Mark(kind, Fraction.of(onset), Fraction.of(end), "");
  }
}
