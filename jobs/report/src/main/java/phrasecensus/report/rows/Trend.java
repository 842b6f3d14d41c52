package phrasecensus.report.rows;

import phrasecensus.tables.TableRow;

/**
 * One row of {@code trends}: how a statistic of a student moved over the dates.
 *
 * @param group that it is held against
 * @param dates different dates among the dated solos
 * @param change of the fitted line from the first date to the last; null below three dates
 * @param movement toward-band, away-from-band, stayed-inside, no-clear-movement, too-few-dates or
 *     no-norm
 * @param directionOnly true when the movement is stated without an interval
 */
public record Trend(
    String student,
    Group group,
    String statistic,
    int solos,
    int dates,
    String firstDate,
    String lastDate,
    Double change,
    String movement,
    boolean directionOnly) {
  static Trend of(TableRow row) {
    return new Trend(
        row.text("student"),
        new Group(row.text("group_by"), row.text("group_value")),
        row.text("statistic"),
        row.integer("solos"),
        row.integer("dates"),
        row.text("first_date"),
        row.text("last_date"),
        row.number("change"),
        row.text("movement"),
        row.flag("direction_only"));
  }

  /** True when it moved toward the middle band or away from it. */
  public boolean isMovement() {
    return movement.equals("toward-band") || movement.equals("away-from-band");
  }
}
