package phrasecensus.report.rows;

import phrasecensus.tables.row.NormShown;
import phrasecensus.tables.row.NormsRow;

/**
 * One row of {@code norms}: the distribution of a statistic over the solos of a group.
 *
 * @param n solos with a value
 * @param undefined solos of the group without one
 * @param players different players among those with a value
 * @param shown what n allows to be shown
 * @param dominatedBy player of more than half the solos; null when there is none
 * @param minimum null without values, like {@code maximum} and {@code mean}
 * @param median the median with its distribution-free 95 % interval
 * @param p05 null where too few solos allow it, like every quantile
 */
public record CorpusNorm(
    Group group,
    String statistic,
    int n,
    int undefined,
    int players,
    NormShown shown,
    String dominatedBy,
    Double minimum,
    Double p05,
    Double p10,
    Double p25,
    Double p50,
    Double p75,
    Double p90,
    Double p95,
    Double maximum,
    Double mean,
    Interval median) {

  /** Reads a row of {@code norms}. */
  public static CorpusNorm of(NormsRow row) {
    return new CorpusNorm(
        new Group(row.groupBy(), row.groupValue()),
        row.statistic(),
        row.n(),
        row.undefined(),
        row.players(),
        row.shown(),
        row.dominatedBy(),
        row.minimum(),
        row.p05(),
        row.p10(),
        row.p25(),
        row.p50(),
        row.p75(),
        row.p90(),
        row.p95(),
        row.maximum(),
        row.mean(),
        new Interval(row.p50(), row.p50Low(), row.p50High()));
  }

  /** The same with another middle half and median, as it is moved to a student's tempo. */
  public CorpusNorm withBand(Interval band) {
    return new CorpusNorm(
        group,
        statistic,
        n,
        undefined,
        players,
        shown,
        dominatedBy,
        minimum,
        p05,
        p10,
        band.low(),
        band.value(),
        band.high(),
        p90,
        p95,
        maximum,
        mean,
        median);
  }

  /** The norm of what is left of a whole of 1, for a statistic that is told by its rest. */
  public CorpusNorm ofTheRest() {
    return new CorpusNorm(
        group,
        statistic,
        n,
        undefined,
        players,
        shown,
        dominatedBy,
        Interval.rest(maximum),
        Interval.rest(p95),
        Interval.rest(p90),
        Interval.rest(p75),
        Interval.rest(p50),
        Interval.rest(p25),
        Interval.rest(p10),
        Interval.rest(p05),
        Interval.rest(minimum),
        Interval.rest(mean),
        median.ofTheRest());
  }

  /** True when there is a middle band: both quartiles stand in the row. */
  public boolean hasBand() {
    return p25 != null && p75 != null;
  }

  /** True when something wider than the middle band may be shown. */
  public boolean hasReach() {
    return p10 != null && p90 != null;
  }

  /** Lower end of the widest stretch that may be shown; null without {@link #hasReach()}. */
  public Double reachLow() {
    return p05 == null ? p10 : p05;
  }

  /** Upper end of the widest stretch that may be shown; null without {@link #hasReach()}. */
  public Double reachHigh() {
    return p95 == null ? p90 : p95;
  }

  /** How far a value lies outside the middle band; 0 inside. Needs {@link #hasBand()}. */
  public double beyondBand(double value) {
    return Math.max(0, Math.max(p25 - value, value - p75));
  }
}
