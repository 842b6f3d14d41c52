package phrasecensus.report.rows;

import phrasecensus.tables.row.ExemplarsRow;
import phrasecensus.tables.row.Role;
import phrasecensus.tables.row.Scope;

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
  static Exemplar of(ExemplarsRow row) {
    return new Exemplar(
        row.student(),
        row.scope() == Scope.POOLED,
        new Group(row.groupBy(), row.groupValue()),
        row.statistic(),
        row.role() == Role.CORPUS,
        row.rank(),
        row.phraseSoloId(),
        row.phraseIndex(),
        row.shownBy(),
        row.value(),
        row.n(),
        row.middle());
  }
}
