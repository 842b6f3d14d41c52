package phrasecensus.report.rows;

import phrasecensus.tables.TableRow;

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
  static Contrast of(TableRow row) {
    return new Contrast(
        row.text("group_by"),
        row.text("first_group"),
        row.text("second_group"),
        row.text("statistic"),
        row.integer("first_n"),
        row.integer("second_n"),
        row.integer("first_players"),
        row.integer("second_players"),
        Interval.of(row, "difference", "difference_low", "difference_high"),
        row.number("effect"),
        row.number("cliffs_delta"),
        row.isMissing("unnamed_solos") ? 0 : row.integer("unnamed_solos"),
        row.number("p_adjusted"),
        row.isMissing("tests") ? null : row.integer("tests"));
  }
}
