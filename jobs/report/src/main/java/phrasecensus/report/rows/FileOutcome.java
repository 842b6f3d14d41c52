package phrasecensus.report.rows;

import phrasecensus.tables.TableRow;
import phrasecensus.tables.row.FilesRow;

/**
 * One row of {@code files} that was not read.
 *
 * @param reason a sentence
 */
public record FileOutcome(String role, String file, String reason) {
  static FileOutcome of(TableRow row) {
    String reason = row.get(FilesRow.REASON);
    return new FileOutcome(
        row.get(FilesRow.ROLE).word(), row.get(FilesRow.FILE), reason == null ? "" : reason);
  }
}
