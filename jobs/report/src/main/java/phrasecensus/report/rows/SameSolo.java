package phrasecensus.report.rows;

/**
 * A corpus file that holds the same solo as an earlier one.
 *
 * @param file its path
 * @param earlier path of the earlier one
 * @param sameBytes true when the files are the same byte for byte; false when only their lines are
 */
public record SameSolo(String file, String earlier, boolean sameBytes) {}
