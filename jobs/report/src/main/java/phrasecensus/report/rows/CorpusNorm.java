package phrasecensus.report.rows;

import phrasecensus.tables.TableRow;

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
    Shown shown,
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

  /** What the number of solos allows, in the words of the table. */
  public enum Shown {
    LIST,
    MEDIAN,
    QUARTILES,
    DECILES,
    FULL;

    static Shown named(String word) {
      for (Shown shown : values()) {
        if (shown.name().equalsIgnoreCase(word)) {
          return shown;
        }
      }
      throw new IllegalArgumentException("Invalid value of norms.shown: " + word);
    }
  }

  /** Reads a row of {@code norms}. */
  public static CorpusNorm of(TableRow row) {
    return new CorpusNorm(
        new Group(row.text("group_by"), row.text("group_value")),
        row.text("statistic"),
        row.integer("n"),
        row.integer("undefined"),
        row.integer("players"),
        Shown.named(row.text("shown")),
        row.text("dominated_by"),
        row.number("minimum"),
        row.number("p05"),
        row.number("p10"),
        row.number("p25"),
        row.number("p50"),
        row.number("p75"),
        row.number("p90"),
        row.number("p95"),
        row.number("maximum"),
        row.number("mean"),
        Interval.of(row, "p50", "p50_low", "p50_high"));
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
