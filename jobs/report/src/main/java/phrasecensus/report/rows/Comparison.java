package phrasecensus.report.rows;

import phrasecensus.tables.TableRow;

/**
 * One row of {@code departures}: a statistic of a student beside the norm of a group.
 *
 * @param pooled true for the median over the student's solos, false for one solo
 * @param soloId the solo; empty when pooled
 * @param reference true for the group that the study holds the solos against first
 * @param referenceReason why it is this group; null for any other
 * @param leftOut corpus solos that are the same file as one of the student's, left out here
 * @param value null where undefined
 * @param n what the value was computed from
 * @param normSolos solos behind the norm
 * @param position where the value stands, in words
 * @param departure distance beyond the middle band in robust standard deviations, with sign; null
 *     without a verdict
 * @param strength size of the departure discounted by how little it rests on; null without one
 * @param place in the ranking, from 1; null when not ranked
 * @param pAdjusted share of chance finds to expect among figures that stand out at least this
 *     clearly; null when not tested
 * @param tests statistics tested together; null when this one was not
 * @param delta over phrases: share of pairs in which the student's is greater less the share in
 *     which the corpus' is, with its 95 % interval; {@link Interval#NONE} when not known
 * @param shift over phrases: typical difference, student less corpus, with its 95 % interval
 */
public record Comparison(
    String student,
    boolean pooled,
    String soloId,
    Group group,
    boolean reference,
    String referenceReason,
    int leftOut,
    String statistic,
    Double value,
    int n,
    int normSolos,
    String position,
    Verdict verdict,
    Double departure,
    Double strength,
    Integer place,
    Double pAdjusted,
    Integer tests,
    Interval delta,
    Interval shift) {

  /** Where a value stands to the middle band of its norm, in the words of the table. */
  public enum Verdict {
    INSIDE,
    BELOW,
    ABOVE,
    TOO_LITTLE,
    NO_NORM;

    static Verdict named(String word) {
      for (Verdict verdict : values()) {
        if (verdict.name().replace('_', '-').equalsIgnoreCase(word)) {
          return verdict;
        }
      }
      throw new IllegalArgumentException("Invalid value of departures.verdict: " + word);
    }

    /** True for below and above. */
    public boolean isOutside() {
      return this == BELOW || this == ABOVE;
    }
  }

  /** Reads a row of {@code departures}. */
  public static Comparison of(TableRow row) {
    return new Comparison(
        row.text("student"),
        "pooled".equals(row.text("scope")),
        row.text("solo_id"),
        new Group(row.text("group_by"), row.text("group_value")),
        row.flag("reference"),
        row.text("reference_reason"),
        row.integer("left_out"),
        row.text("statistic"),
        row.number("value"),
        row.integer("n"),
        row.integer("norm_n"),
        row.text("position"),
        Verdict.named(row.text("verdict")),
        row.number("departure"),
        row.number("strength"),
        row.isMissing("place") ? null : row.integer("place"),
        row.number("p_adjusted"),
        row.isMissing("tests") ? null : row.integer("tests"),
        Interval.of(row, "cliffs_delta", "delta_low", "delta_high"),
        Interval.of(row, "shift", "shift_low", "shift_high"));
  }
}
