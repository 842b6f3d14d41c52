package phrasecensus.music.aim;

/**
 * How a solo, or all solos of a student together, stand to one question.
 *
 * @param question what was asked
 * @param verdict how it stands
 * @param finding what is amiss; {@link Finding#NONE} where met or nothing is asked, {@link
 *     Finding#NOT_ENOUGH} where it cannot be told
 * @param aim the aim that decided: the first not met; where none is, the first that is met; else
 *     the first; null where nothing is asked
 * @param value of the aim's statistic; null where undefined or nothing is asked
 * @param n how many things the value counts, at least 0
 * @param shortage why it cannot be told; null otherwise
 * @param first true for the answer that the lesson starts with
 */
public record Answer(
    Question question,
    Verdict verdict,
    Finding finding,
    Aim aim,
    Double value,
    int n,
    Shortage shortage,
    boolean first) {

  /** The same answer as the one that the lesson starts with. */
  Answer asFirst() {
    return new Answer(question, verdict, finding, aim, value, n, shortage, true);
  }
}
