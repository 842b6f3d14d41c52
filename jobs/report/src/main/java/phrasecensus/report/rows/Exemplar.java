package phrasecensus.report.rows;

import phrasecensus.tables.TableRow;

/**
 * One row of {@code exemplars}: a phrase that makes a departure visible.
 *
 * @param pooled true for a departure over all solos of the student
 * @param ofCorpus true when it shows what is usual in the group, false when it shows the departure
 * @param rank 1 for the phrase to show first
 * @param phraseSoloId the solo that holds it
 * @param shownBy statistic whose value it was chosen by
 */
public record Exemplar(
    String student,
    boolean pooled,
    Group group,
    String statistic,
    boolean ofCorpus,
    int rank,
    String phraseSoloId,
    int phraseIndex,
    String shownBy,
    double value,
    int n,
    double middle) {
  static Exemplar of(TableRow row) {
    return new Exemplar(
        row.text("student"),
        "pooled".equals(row.text("scope")),
        new Group(row.text("group_by"), row.text("group_value")),
        row.text("statistic"),
        "corpus".equals(row.text("role")),
        row.integer("rank"),
        row.text("phrase_solo_id"),
        row.integer("phrase_index"),
        row.text("shown_by"),
        row.number("value"),
        row.integer("n"),
        row.number("middle"));
  }
}
