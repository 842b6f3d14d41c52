package phrasecensus.report.rows;

import phrasecensus.tables.row.SensitivityRow;

/**
 * One row of {@code sensitivity} for the whole corpus: the norm of a statistic under one phrase
 * rule.
 *
 * @param rule its name, then its numbers where they differ from the usual
 * @param ruleOfStudy true for the rule that every other figure rests on
 * @param n solos with a value under this rule
 * @param p25 null where too few solos allow it, like every quantile
 * @param medianShift its median less that under the rule of the study; null where either is
 * @param spreads that shift in robust standard deviations of the norm under the rule of the study;
 *     null where that norm has no spread
 * @param typicalChange median over solos of how far a solo's value moves, without sign; null where
 *     no solo has both values
 * @param solosChanged solos with another value
 */
public record RuleNorm(
    String statistic,
    String rule,
    boolean ruleOfStudy,
    int n,
    Double p25,
    Double p50,
    Double p75,
    Double medianShift,
    Double spreads,
    Double typicalChange,
    int solosChanged) {
  static RuleNorm of(SensitivityRow row) {
    return new RuleNorm(
        row.statistic(),
        row.rule(),
        row.ruleOfStudy(),
        row.n(),
        row.p25(),
        row.p50(),
        row.p75(),
        row.medianShift(),
        row.medianShiftSpreads(),
        row.typicalChange(),
        row.solosChanged());
  }
}
