package phrasecensus.report.rows;

import phrasecensus.tables.TableRow;

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
    String scope,
    String soloId,
    String question,
    int place,
    String verdict,
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
  /** The scope of one solo. */
  public static final String SOLO = "solo";

  /** The scope of the newest solo. */
  public static final String LATEST = "latest";

  /** The scope of all solos together. */
  public static final String ALL = "all";

  static Answer of(TableRow row) {
    return new Answer(
        row.text("scope"),
        row.text("solo_id"),
        row.text("question"),
        row.integer("place"),
        row.text("verdict"),
        row.text("finding"),
        row.text("aim"),
        row.number("value"),
        row.number("low"),
        row.number("high"),
        row.text("counted"),
        row.integer("n"),
        row.text("shortage"),
        row.text("words"),
        row.flag("first"));
  }

  public boolean isMet() {
    return "met".equals(verdict);
  }

  public boolean isNotYet() {
    return "not_yet".equals(verdict);
  }

  /** True where something is asked and it cannot be told. */
  public boolean isUntold() {
    return "not_enough".equals(verdict);
  }
}
