package phrasecensus.report.rows;

/**
 * A file that is in both roles, byte for byte.
 *
 * @param corpusFile path of the corpus solo
 * @param studentFile path of the student's file
 * @param studentSoloId that solo
 */
public record Twin(String corpusFile, String studentFile, String studentSoloId) {}
