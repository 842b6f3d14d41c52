package phrasecensus.report.rows;

import phrasecensus.tables.row.ContrastsRow;

/**
 * One row of {@code contrasts}: a statistic in two groups of the corpus, first less second.
 *
 * @param difference of the groups' means at one tempo, in the unit of the statistic
 * @param effect the same in standard deviations of a solo; null where nothing could be compared
 * @param delta Cliff's, of the solos as played; null with {@code effect}
 * @param unnamed solos without a player's name
 * @param pAdjusted null when not tested, like {@code tests}
 */
public record Contrast(
    String by,
    String first,
    String second,
    String statistic,
    int firstSolos,
    int secondSolos,
    int firstPlayers,
    int secondPlayers,
    Interval difference,
    Double effect,
    Double delta,
    int unnamed,
    Double pAdjusted,
    Integer tests) {
  static Contrast of(ContrastsRow row) {
    return new Contrast(
        row.groupBy(),
        row.firstGroup(),
        row.secondGroup(),
        row.statistic(),
        row.firstN(),
        row.secondN(),
        row.firstPlayers(),
        row.secondPlayers(),
        new Interval(row.difference(), row.differenceLow(), row.differenceHigh()),
        row.effect(),
        row.cliffsDelta(),
        row.unnamedSolos() == null ? 0 : row.unnamedSolos(),
        row.pAdjusted(),
        row.tests());
  }
}
