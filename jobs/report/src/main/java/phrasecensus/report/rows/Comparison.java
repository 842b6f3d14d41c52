package phrasecensus.report.rows;

import java.util.Locale;
import phrasecensus.tables.TableRow;

/**
 * One row of {@code departures}: a statistic of a student beside a group of the corpus.
 *
 * @param pooled true for all of the student's solos together, false for one solo
 * @param soloId the solo; empty when pooled
 * @param reference true for the group that the study holds the solos against first
 * @param referenceReason why it is this group; null for any other
 * @param leftOut corpus solos that are the same file as one of the student's, left out here
 * @param leftOutAsPlayer corpus solos by a player of the student's name, left out here
 * @param value null where undefined; pooled: of all solos together
 * @param n what the value was computed from, in all solos together
 * @param solos of the student whose values are compared
 * @param pooledValue share of all n things together; null where there is no such share
 * @param normSolos solos of the group with a value
 * @param normUnnamed how many of them name no player
 * @param onePlayer true where they are all one player's
 * @param band the middle half of the group at the student's tempo, with its median as value; {@link
 *     Interval#NONE} without solos
 * @param atTempo true where band, rank and interval are at the student's tempo; false where a tempo
 *     is not known
 * @param below solos of the group whose value at the student's tempo is less; null without any
 * @param equal solos of the group whose value there is equal; null without any
 * @param place in what is told, from 1; null for what is not
 * @param pValue null when not tested
 * @param pAdjusted bound on the share of chance finds among figures that stand out at least this
 *     clearly; null outside a family
 * @param tests statistics judged together; null outside a family
 * @param usual where such a value of a further player of the group lies, with no value of its own;
 *     {@link Interval#NONE} when not tested
 * @param questionDiffers of a headline: true where the headlines of its facet differ, together or
 *     one by itself; false for any other statistic
 * @param fewPhrases true where half or more of what the value tells is chance
 * @param delta over phrases: share of pairs in which the student's is greater less the share in
 *     which the corpus' is, with its 95 % interval where it is a description, and no verdict;
 *     {@link Interval#NONE} when not known
 * @param shift over phrases: typical difference, student less corpus, with an interval likewise
 */
public record Comparison(
    String student,
    boolean pooled,
    String soloId,
    Group group,
    boolean reference,
    Reason referenceReason,
    int leftOut,
    int leftOutAsPlayer,
    String statistic,
    Double value,
    int n,
    int solos,
    Double pooledValue,
    int normSolos,
    int normUnnamed,
    boolean onePlayer,
    Interval band,
    boolean atTempo,
    Integer below,
    Integer equal,
    Verdict verdict,
    Integer place,
    Double pValue,
    Double pAdjusted,
    Integer tests,
    Interval usual,
    boolean questionDiffers,
    boolean fewPhrases,
    Interval delta,
    Interval shift) {

  /** What was found, in the words of the table. */
  public enum Verdict {
    /** Clear, and above where such a player's value usually lies. */
    ABOVE,
    /** Clear, and below. */
    BELOW,
    /** Not clear. */
    INSIDE,
    /** Too few phrases for this statistic to be judged. */
    UNRELIABLE,
    /** Too few solos to judge by: phrases are described. */
    DESCRIBED,
    TOO_LITTLE,
    NO_NORM,
    /** Nothing varies in the group. */
    CONSTANT;

    static Verdict named(String word) {
      return word(Verdict.class, "departures.verdict", word);
    }

    /** True for below and above. */
    public boolean isOutside() {
      return this == BELOW || this == ABOVE;
    }
  }

  /** Why a group is the one of reference, in the words of the table. */
  public enum Reason {
    NAMED,
    FIRST_COLUMN,
    WHOLE_NAMED,
    NO_GROUPS,
    NOT_IN_A_GROUP,
    GROUP_TOO_SMALL;

    /** As the table and the wording spell it. */
    public String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  private static <E extends Enum<E>> E word(Class<E> words, String column, String word) {
    for (E each : words.getEnumConstants()) {
      if (each.name().replace('_', '-').equalsIgnoreCase(word)) {
        return each;
      }
    }
    throw new IllegalArgumentException("Invalid value of " + column + ": " + word);
  }

  /** Which side the value is on: of the interval where it is clear, else of what is usual. */
  public boolean isBelow() {
    return switch (verdict) {
      case BELOW -> true;
      case ABOVE -> false;
      case DESCRIBED -> delta.isKnown() && delta.value() < 0;
      default -> value != null && band.isKnown() && value < band.value();
    };
  }

  /** True where the value lies outside the middle half at the student's tempo. */
  public boolean isBesideBand() {
    return value != null && band.hasEnds() && (value < band.low() || value > band.high());
  }

  /** Reads a row of {@code departures}. */
  public static Comparison of(TableRow row) {
    String reason = row.text("reference_reason");
    return new Comparison(
        row.text("student"),
        "pooled".equals(row.text("scope")),
        row.text("solo_id"),
        new Group(row.text("group_by"), row.text("group_value")),
        row.flag("reference"),
        reason == null ? null : word(Reason.class, "departures.reference_reason", reason),
        row.integer("left_out"),
        row.integer("left_out_as_player"),
        row.text("statistic"),
        row.number("value"),
        row.integer("n"),
        row.integer("solos"),
        row.number("pooled_value"),
        row.integer("norm_n"),
        row.integer("norm_unnamed"),
        row.flag("one_player"),
        Interval.of(row, "band_median", "band_low", "band_high"),
        row.flag("tempo_taken_out"),
        row.isMissing("norm_below") ? null : (Integer) row.integer("norm_below"),
        row.isMissing("norm_equal") ? null : (Integer) row.integer("norm_equal"),
        Verdict.named(row.text("verdict")),
        row.isMissing("place") ? null : (Integer) row.integer("place"),
        row.number("p_value"),
        row.number("p_adjusted"),
        row.isMissing("tests") ? null : (Integer) row.integer("tests"),
        row.isMissing("interval_low")
            ? Interval.NONE
            : new Interval(null, row.number("interval_low"), row.number("interval_high")),
        !row.isMissing("question_differs") && row.flag("question_differs"),
        row.number("reliability") < 0.5,
        Interval.of(row, "cliffs_delta", "delta_low", "delta_high"),
        Interval.of(row, "shift", "shift_low", "shift_high"));
  }
}
