package phrasecensus.report.sheet;

import phrasecensus.report.rows.SoloFacts;

/**
 * A phrase of a sheet.
 *
 * @param solo whose it is
 * @param phraseIndex its place in that solo
 * @param value what it has of the statistic
 * @param lastDegree degree of its last note over the chord; null when there is none
 */
public record SheetPhrase(SoloFacts solo, int phraseIndex, double value, String lastDegree) {}
