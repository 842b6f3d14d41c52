package phrasecensus.report.rows;

import phrasecensus.tables.row.ContextNormsRow;

/**
 * One row of {@code context_norms}: how often phrases that end over a chord of a context end on a
 * degree of it.
 *
 * @param place the chord, as in {@code V}; {@code all} for the whole context
 * @param degree as in {@code b3}
 * @param phrases that end there on the degree
 * @param allPhrases that end there
 * @param solos that those are in
 * @param players different players of these solos
 */
public record ContextEnd(
    String kind,
    String mode,
    String place,
    String degree,
    int phrases,
    int allPhrases,
    int solos,
    int players) {
  static ContextEnd of(ContextNormsRow row) {
    return new ContextEnd(
        row.kind().word(),
        row.mode().word(),
        row.place(),
        row.degree(),
        row.phrases(),
        row.allPhrases(),
        row.solos(),
        row.players());
  }
}
