package phrasecensus.music.phrase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import phrasecensus.music.analysis.SoloText;
import phrasecensus.music.phrase.GroupingPreferencesRule.Preference;
import phrasecensus.music.score.Metre;

class GroupingPreferencesRuleTest {
  /** Worked with R 4.2.2 by a program that shares no code with this one: before note 6 each. */
  @ParameterizedTest
  @EnumSource(Preference.class)
  void eachPreferencePartsTheWorkedMelodyBeforeItsSixthNote(Preference preference) {
    assertThat(GroupingPreferencesRule.boundaries(Tunes.of(Tunes.M), preference))
        .containsExactly(5);
  }

  @ParameterizedTest(name = "support of at least {0}: {1}")
  @CsvSource({"1, 2 5", "2, 2", "3, ''"})
  void enoughPreferencesMustAgree(int least, String expected) {
    // Before the third note silence and gap are largest, before the sixth the interval alone.
    var solo =
        SoloText.solo(Metre.of(4, 4), 4, "0:C4:1 1:D4:1 4:E4:1 5:F4:1 6:G4:1 7:G5:1 8:A5:1", "");

    assertThat(new GroupingPreferencesRule(least).boundaries(solo))
        .isEqualTo(
            expected.isEmpty()
                ? List.of()
                : List.of(expected.split(" ")).stream().map(Integer::valueOf).toList());
  }

  @Test
  void threeNotesAreNeverParted() {
    var solo = SoloText.solo(Metre.of(4, 4), 4, "0:C4:1 1:D4:1 9:E5:1", "");

    assertThat(new GroupingPreferencesRule(1).boundaries(solo)).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({"0", "4"})
  void supportOutOfRangeIsRefused(int least) {
    assertThatThrownBy(() -> new GroupingPreferencesRule(least))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid least-support: " + least + " is not 1, 2 or 3");
  }
}
