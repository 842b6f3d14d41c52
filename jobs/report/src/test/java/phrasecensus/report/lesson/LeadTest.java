package phrasecensus.report.lesson;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import phrasecensus.report.rows.Answer;
import phrasecensus.tables.row.AnswerScope;
import phrasecensus.tables.row.AnswerVerdict;

class LeadTest {
  private static Answer answer(String question, String verdict, String finding, boolean first) {
    return new Answer(
        AnswerScope.SOLO,
        "s",
        question,
        1,
        AnswerVerdict.of(verdict),
        finding,
        "statistic",
        0.5,
        null,
        null,
        "notes",
        9,
        null,
        null,
        first);
  }

  private static final List<Answer> FRAGMENTS =
      List.of(
          answer("tonal_centre", "met", "none", false),
          answer("landings", "not_yet", "weak_landings", true),
          answer("phrases", "not_yet", "fragments", false));

  @Test
  void theFirstAnswerOfTheTableLeads() {
    assertThat(Lead.of(FRAGMENTS, null)).isEqualTo(new Lead("weak_landings", "landings", false));
  }

  @Test
  void withoutAFirstAnswerNothingIsAmiss() {
    assertThat(Lead.of(List.of(answer("landings", "met", "none", false)), ""))
        .isEqualTo(new Lead("none", "", false));
  }

  @ParameterizedTest
  @CsvSource({
    "phrases, fragments, phrases",
    "Phrases, fragments, phrases",
    "no_breath, no_breath, phrases",
    "No breath, no_breath, phrases",
    "tonal centre, outside_key, tonal_centre",
    "movement, long_notes, movement",
    "own, own, own"
  })
  void theTeachersChoiceLeadsWhateverTheAnswersSay(String workOn, String finding, String question) {
    assertThat(Lead.of(FRAGMENTS, workOn)).isEqualTo(new Lead(finding, question, true));
  }

  @Test
  void whatNobodyKnowsChoosesNothing() {
    assertThat(Lead.of(FRAGMENTS, "vibrato").finding()).isEqualTo("weak_landings");
    assertThat(Lead.isKnown("vibrato")).isFalse();
    assertThat(Lead.isKnown("")).isTrue();
    assertThat(Lead.isKnown("landings")).isTrue();
  }
}
