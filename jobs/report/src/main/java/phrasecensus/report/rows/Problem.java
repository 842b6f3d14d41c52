package phrasecensus.report.rows;

import phrasecensus.tables.TableRow;

/**
 * One row of {@code problems}.
 *
 * @param soloId null when the file was rejected
 */
public record Problem(
    String role,
    String file,
    String soloId,
    String part,
    String bar,
    String code,
    String found,
    String done) {
  static Problem of(TableRow row) {
    return new Problem(
        row.text("role"),
        row.text("file"),
        row.text("solo_id"),
        row.text("part"),
        row.text("bar"),
        row.text("code"),
        row.text("found"),
        row.text("done"));
  }
}
