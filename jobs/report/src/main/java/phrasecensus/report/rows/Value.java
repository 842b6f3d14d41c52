package phrasecensus.report.rows;

/**
 * The value of a statistic with what it rests on.
 *
 * @param value null where undefined
 * @param n what it was computed from
 */
public record Value(Double value, int n) {
  /** Not computed. */
  public static final Value UNDEFINED = new Value(null, 0);

  public boolean isDefined() {
    return value != null;
  }
}
