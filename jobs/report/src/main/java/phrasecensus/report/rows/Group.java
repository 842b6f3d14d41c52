package phrasecensus.report.rows;

/**
 * A group of corpus solos that a norm describes.
 *
 * @param by metadata column that makes the group; {@code all} for the whole corpus
 * @param value its value; {@code all} for the whole corpus, {@code (none)} where the column is
 *     empty
 */
public record Group(String by, String value) {
  /** The whole corpus. */
  public static final Group ALL = new Group("all", "all");

  public boolean isWholeCorpus() {
    return equals(ALL);
  }
}
