package phrasecensus.report.rows;

import phrasecensus.tables.TableRow;

/**
 * One row of {@code files} that was not read.
 *
 * @param reason a sentence
 */
public record FileOutcome(String role, String file, String reason) {
  static FileOutcome of(TableRow row) {
    String reason = row.text("reason");
    return new FileOutcome(row.text("role"), row.text("file"), reason == null ? "" : reason);
  }
}
