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

  /** The same of what is left of a whole of 1: .2 from .1 to .4 becomes .8 from .6 to .9. */
  Interval ofTheRest() {
    return new Interval(rest(value), rest(high), rest(low));
  }

  /** The same difference the other way round. */
  public Interval negated() {
    return new Interval(negated(value), negated(high), negated(low));
  }

  /** What is left of a whole of 1; null for null. */
  static Double rest(Double share) {
    return share == null ? null : 1 - share;
  }

  private static Double negated(Double number) {
    return number == null ? null : -number;
  }
}
