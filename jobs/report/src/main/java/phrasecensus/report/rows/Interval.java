package phrasecensus.report.rows;

/**
 * An estimate with the 95 % interval that the tables give for it.
 *
 * @param value null where there is none
 * @param low null where there is no interval, like {@code high}
 */
public record Interval(Double value, Double low, Double high) {
  /** Nothing is known. */
  public static final Interval NONE = new Interval(null, null, null);

  /** True when there is an estimate. */
  public boolean isKnown() {
    return value != null;
  }

  /** True when both ends are known. */
  public boolean hasEnds() {
    return low != null && high != null;
  }
}
