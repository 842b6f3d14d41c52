package phrasecensus.report.rows;

import phrasecensus.tables.TableRow;

/**
 * One row of {@code contrasts}: a statistic in two groups of the corpus, first less second.
 *
 * @param dealt players or solos: what the test treats as independent; null when not tested
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
    Interval shift,
    Interval delta,
    String dealt,
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
        Interval.of(row, "shift", "shift_low", "shift_high"),
        Interval.of(row, "cliffs_delta", "delta_low", "delta_high"),
        row.text("dealt"),
        row.number("p_adjusted"),
        row.isMissing("tests") ? null : row.integer("tests"));
  }
}
