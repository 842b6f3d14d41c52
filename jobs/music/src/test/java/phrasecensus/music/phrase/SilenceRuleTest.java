package phrasecensus.music.phrase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;
import phrasecensus.music.score.Metre;
import phrasecensus.music.score.Span;
import phrasecensus.music.score.TempoChange;
import phrasecensus.music.time.Fraction;

/** Definition of the rule: {@link SilenceRule}; beats of compound metres are common practice. */
class SilenceRuleTest {
  @Test
  void threeQuartersOfABeatOfSilenceEndAPhrase() {
    var solo = Tunes.of("0:1/4:60 1:1:62 2:1:64");

    assertThat(SilenceRule.DEFAULT.boundaries(solo)).containsExactly(1);
  }

  @Test
  void lessThanThreeQuartersOfABeatDoesNot() {
    var solo = Tunes.of("0:1/3:60 1:1:62 2:1:64");

    assertThat(SilenceRule.DEFAULT.boundaries(solo)).isEmpty();
  }

  @Test
  void theBeatOfSixEightIsADottedQuarter() {
    var shortOfIt = Tunes.of("0:1/2:60 3/2:1/2:62", Metre.of(6, 8), List.of());
    var longEnough = Tunes.of("0:3/8:60 3/2:1/2:62", Metre.of(6, 8), List.of());

    assertThat(SilenceRule.DEFAULT.boundaries(shortOfIt)).isEmpty();
    assertThat(SilenceRule.DEFAULT.boundaries(longEnough)).containsExactly(1);
  }

  @Test
  void secondsCountWhereTheTempoIsKnown() {
    var rule = new SilenceRule(Fraction.of(3, 4), 0.3);
    String line = "0:1:60 2:1:62";
    var slow = Tunes.of(line, Metre.of(4, 4), List.of(new TempoChange(Fraction.ZERO, 180)));
    var fast = Tunes.of(line, Metre.of(4, 4), List.of(new TempoChange(Fraction.ZERO, 240)));

    assertThat(rule.boundaries(slow)).containsExactly(1);
    assertThat(rule.boundaries(fast)).isEmpty();
    assertThat(rule.boundaries(Tunes.of(line))).containsExactly(1);
  }

  @Test
  void aTempoChangeInsideTheRestCounts() {
    var rule = new SilenceRule(Fraction.of(3, 4), 0.5);
    var tempi =
        List.of(new TempoChange(Fraction.ZERO, 240), new TempoChange(Fraction.of(3, 2), 60));

    // half a quarter at 240 (0.125 s) and half a quarter at 60 (0.5 s)
    assertThat(rule.boundaries(Tunes.of("0:1:60 2:1:62", Metre.of(4, 4), tempi)))
        .containsExactly(1);
  }

  @Test
  void slashesEndAPhrase() {
    var solo =
        Tunes.withUnknownSpans(
            Tunes.of("0:1:60 1:1:62 3/1:1:64 4:1:65"),
            List.of(new Span(Fraction.of(2), Fraction.of(5, 2))));
    var rule = new SilenceRule(Fraction.of(4));

    assertThat(rule.boundaries(solo)).containsExactly(2);
  }

  @Test
  void aSoloOfOneNoteOrNoneHasNoInnerBoundary() {
    assertThat(SilenceRule.DEFAULT.boundaries(Tunes.of("0:1:60"))).isEmpty();
    assertThat(SilenceRule.DEFAULT.phrases(Tunes.of("0:1:60"))).hasSize(1);
    assertThat(SilenceRule.DEFAULT.boundaries(Tunes.of(""))).isEmpty();
    assertThat(SilenceRule.DEFAULT.phrases(Tunes.of(""))).isEmpty();
  }

  @Test
  void settingsNameEveryNumber() {
    assertThat(SilenceRule.DEFAULT.settings().toString())
        .isEqualTo("{minimum-beats=3/4, minimum-seconds=0.0}");
  }

  @Test
  void rejectsASilenceOfNothing() {
    assertThatThrownBy(() -> new SilenceRule(Fraction.ZERO))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid minimum-beats: 0 is not positive");
  }
}
