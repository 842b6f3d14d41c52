package phrasecensus.report.rows;

import phrasecensus.tables.row.TrendMovement;
import phrasecensus.tables.row.TrendsRow;

/**
 * One row of {@code trends}: how a statistic of a student moved over the dates.
 *
 * @param group that it is held against
 * @param dates different dates among the dated solos
 * @param change of the fitted line from the first date to the last; null below three dates
 * @param movement what was found
 * @param directionOnly true when the movement is stated without an interval
 */
public record Trend(
    String student,
    Group group,
    String statistic,
    int solos,
    int dates,
    Double change,
    TrendMovement movement,
    boolean directionOnly) {
  static Trend of(TrendsRow row) {
    return new Trend(
        row.student(),
        new Group(row.groupBy(), row.groupValue()),
        row.statistic(),
        row.solos(),
        row.dates(),
        row.change(),
        row.movement(),
        row.directionOnly());
  }

  /** True when it moved toward the middle band or away from it. */
  public boolean isMovement() {
    return movement == TrendMovement.TOWARD_BAND || movement == TrendMovement.AWAY_FROM_BAND;
  }
}
