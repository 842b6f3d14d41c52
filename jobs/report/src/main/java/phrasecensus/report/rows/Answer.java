package phrasecensus.report.rows;

import phrasecensus.tables.Word;
import phrasecensus.tables.row.AnswerScope;
import phrasecensus.tables.row.AnswerVerdict;
import phrasecensus.tables.row.AnswersRow;

/**
 * How a solo of a student, or all of them together, stands to a question: one row of {@code
 * answers}, in the words of that table.
 *
 * @param scope solo, latest or all
 * @param soloId empty for all
 * @param question tonal_centre, landings, movement, phrases or own
 * @param place of the question in the order of the study, from 1
 * @param verdict met, not_yet, not_enough or no_aim
 * @param finding what is amiss; none where nothing is
 * @param aim statistic of the aim that decided; null where nothing is asked
 * @param value of that statistic; null where undefined
 * @param low least value that meets the aim; null for none
 * @param high largest value that meets it; null for none
 * @param counted what the statistic counts; null where nothing is asked
 * @param n how many of these
 * @param shortage why it cannot be told; null where it can
 * @param words the teacher's own words for the aim; null for none
 * @param first true for the answer that the lesson starts with
 */
public record Answer(
    AnswerScope scope,
    String soloId,
    String question,
    int place,
    AnswerVerdict verdict,
    String finding,
    String aim,
    Double value,
    Double low,
    Double high,
    String counted,
    int n,
    String shortage,
    String words,
    boolean first) {
  static Answer of(AnswersRow row) {
    return new Answer(
        row.scope(),
        row.soloId(),
        row.question().word(),
        row.place(),
        row.verdict(),
        row.finding().word(),
        row.aim(),
        row.value(),
        row.low(),
        row.high(),
        Word.orNull(row.counted()),
        row.n(),
        Word.orNull(row.shortage()),
        row.words(),
        row.first());
  }

  public boolean isMet() {
    return verdict == AnswerVerdict.MET;
  }

  public boolean isNotYet() {
    return verdict == AnswerVerdict.NOT_YET;
  }

  /** True where something is asked and it cannot be told. */
  public boolean isUntold() {
    return verdict == AnswerVerdict.NOT_ENOUGH;
  }
}
