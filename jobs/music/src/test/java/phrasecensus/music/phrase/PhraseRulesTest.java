package phrasecensus.music.phrase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Map;
import org.junit.jupiter.api.Test;
import phrasecensus.music.time.Fraction;

class PhraseRulesTest {
  @Test
  void everyRuleComesBackFromItsNameAndSettings() {
    for (String name : PhraseRules.names()) {
      PhraseRule rule = PhraseRules.rule(name);

      assertThat(rule.name()).isEqualTo(name);
      assertThat(PhraseRules.rule(name, rule.settings())).isEqualTo(rule);
      assertThat(PhraseRules.description(name)).endsWith(".");
    }
  }

  @Test
  void aSettingReplacesAUsualNumber() {
    assertThat(
            PhraseRules.rule("silence", Map.of("minimum-beats", "1.5", "minimum-seconds", "3/10")))
        .isEqualTo(new SilenceRule(Fraction.of(3, 2), .3));
  }

  @Test
  void anUnknownRuleIsToldTheKnownOnes() {
    assertThatThrownBy(() -> PhraseRules.rule("silense"))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage(
            "Invalid phrase rule: silense is none of by-material, breath, for-songs, silence,"
                + " marked, boundary-strength, grouping-programme, grouping-preferences");
  }

  @Test
  void anUnknownSettingIsToldTheKnownOnes() {
    assertThatThrownBy(() -> PhraseRules.rule("silence", Map.of("beats", "1")))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage(
            "Invalid setting of phrase rule silence: beats is none of minimum-beats,"
                + " minimum-seconds");
  }

  @Test
  void everyRuleComesBackFromItsText() {
    for (String text :
        new String[] {
          "breath", "silence", "silence minimum-beats=3/2", "marked", "for-songs", "by-material"
        }) {
      assertThat(PhraseRules.text(PhraseRules.parse(text))).isEqualTo(text);
    }
    assertThat(PhraseRules.text(PhraseRules.parse(" silence  minimum-beats=0.75 ")))
        .isEqualTo("silence");
  }

  @Test
  void aWordThatIsNoSettingIsNamed() {
    assertThatThrownBy(() -> PhraseRules.parse("silence 3/4"))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid phrase rule: in 'silence 3/4', 3/4 is not NAME=VALUE");
  }

  @Test
  void aSettingOfAnotherRuleIsToldWhoseItIs() {
    assertThatThrownBy(() -> PhraseRules.rule("breath", Map.of("minimum-beats", "1")))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageStartingWith("Invalid setting of phrase rule breath: minimum-beats is none of ")
        .hasMessageEndingWith("; it is a setting of the phrase rule silence");
  }

  @Test
  void aValueThatIsNoNumberIsRefused() {
    for (String value : new String[] {"three", "1/0", "", "1e999999999", "3/"}) {
      assertThatThrownBy(() -> PhraseRules.rule("silence", Map.of("minimum-beats", value)))
          .isInstanceOf(IllegalArgumentException.class)
          .hasMessage(
              "Invalid minimum-beats of phrase rule silence: "
                  + value
                  + " is not a number such as 0.75 or 3/4");
    }
  }

  @Test
  void aNumberThatMustBeWholeIsNotRounded() {
    assertThatThrownBy(() -> PhraseRules.rule("marked", Map.of("minimum-slur-notes", "4.5")))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid minimum-slur-notes of phrase rule marked: 4.5 is not a whole number");
  }
}
