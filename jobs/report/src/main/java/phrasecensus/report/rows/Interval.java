package phrasecensus.report.rows;

import phrasecensus.tables.TableRow;

/**
 * An estimate with the 95 % interval that the tables give for it.
 *
 * @param value null where there is none
 * @param low null where there is no interval, like {@code high}
 */
public record Interval(Double value, Double low, Double high) {
  /** Nothing is known. */
  public static final Interval NONE = new Interval(null, null, null);

  static Interval of(TableRow row, String value, String low, String high) {
    return new Interval(row.number(value), row.number(low), row.number(high));
  }

  /** True when there is an estimate. */
  public boolean isKnown() {
    return value != null;
  }

  /** True when both ends are known. */
  public boolean hasEnds() {
    return low != null && high != null;
  }
}
