package phrasecensus.tables;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class AimsDefinitionTest {
  @TempDir private Path folder;

  private AimsDefinition aims(String block) throws IOException {
    Path file = Files.writeString(folder.resolve("study.yaml"), "students: pupils\n" + block);
    return StudyDefinition.read(file).aims();
  }

  @Test
  void firstStepsHoldUnlessTheStudySaysOtherwise() throws IOException {
    assertThat(aims("")).isEqualTo(AimsDefinition.DEFAULT);
    assertThat(aims("aims: first-steps\n")).isEqualTo(AimsDefinition.DEFAULT);
    assertThat(aims("aims: none\n").set()).isEqualTo("none");
  }

  @Test
  void readsAimsForAllForALevelAndForAStudent() throws IOException {
    AimsDefinition aims =
        aims(
            """
            aims:
              order: [phrases, movement]
              level-column: Group
              all:
                - {answer: movement, statistic: eighth_or_shorter_share, low: 0.7}
              levels:
                two: {set: none, aims: [{statistic: phrase_length_bars, range: [1.5, 4]}]}
                three: none
              students:
                Ada: [{answer: own, statistic: phrase_starts_on_beat, high: 0.5, words: After the beat}]
            """);

    assertThat(aims.order()).containsExactly("phrases", "movement");
    assertThat(aims.levelColumn()).isEqualTo("group");
    assertThat(aims.all().aims())
        .containsExactly(
            new AimsDefinition.Stated(
                "movement", "eighth_or_shorter_share", 0.7, null, null, null, ""));
    assertThat(aims.levels().get("two").set()).isEqualTo("none");
    assertThat(aims.levels().get("two").aims().get(0).high()).isEqualTo(4);
    assertThat(aims.levels().get("three").set()).isEqualTo("none");
    assertThat(aims.students().get("Ada").aims().get(0).words()).isEqualTo("After the beat");
    assertThat(AimsDefinition.parse(aims.text())).isEqualTo(aims);
  }

  @ParameterizedTest(name = "{1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "{answer: own, statistic: phrase_lenght_bars, low: 1}|Did you mean 'phrase_length_bars'?",
        "{statistic: phrase_length_bars, range: [4, 2]}|has an empty range: no value lies from 4.0"
            + " to 2.0",
        "{statistic: phrase_length_bars}|has no range",
        "{statistic: in_key_share, low: 90}|can never be met: 'in_key_share' is a share from 0 to"
            + " 1",
        "{answer: rhythm, statistic: in_key_share, low: 0.9}|names the answer 'rhythm'",
        "{statistic: in_key_share, low: much}|write a number",
        "{statistic: in_key_share, low: 0.9, finding: lazy}|has the finding 'lazy'",
        "{statistic: in_key_share, low: 0.9, least: 0}|use a whole number from 1",
        "{statistics: in_key_share, low: 0.9}|Did you mean 'statistic'?",
        "in_key_share|must be as"
      })
  void whatCannotBeAnAimIsSaid(String aim, String sentence) {
    assertThatThrownBy(() -> aims("aims: [" + aim + "]\n"))
        .isInstanceOf(InputException.class)
        .hasMessageContaining(sentence);
  }

  @Test
  void unknownSetIsSaid() {
    assertThatThrownBy(() -> aims("aims: second-steps\n"))
        .isInstanceOf(InputException.class)
        .hasMessageContaining("'aims' is 'second-steps'; use first-steps or none");
  }
}
