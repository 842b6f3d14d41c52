package phrasecensus.report.rows;

import phrasecensus.tables.row.DepartureVerdict;
import phrasecensus.tables.row.DeparturesRow;
import phrasecensus.tables.row.ReferenceReason;
import phrasecensus.tables.row.Scope;

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
    ReferenceReason referenceReason,
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
    DepartureVerdict verdict,
    Integer place,
    Double pValue,
    Double pAdjusted,
    Integer tests,
    Interval usual,
    boolean questionDiffers,
    boolean fewPhrases,
    Interval delta,
    Interval shift) {

  /** True where it was found clearly below or above. */
  public boolean isOutside() {
    return verdict == DepartureVerdict.BELOW || verdict == DepartureVerdict.ABOVE;
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

  /** The comparison of what is left of a whole of 1: every figure, the verdict and the place. */
  public Comparison ofTheRest() {
    return new Comparison(
        student,
        pooled,
        soloId,
        group,
        reference,
        referenceReason,
        leftOut,
        leftOutAsPlayer,
        statistic,
        Interval.rest(value),
        n,
        solos,
        Interval.rest(pooledValue),
        normSolos,
        normUnnamed,
        onePlayer,
        band.ofTheRest(),
        atTempo,
        below == null || equal == null ? below : Integer.valueOf(normSolos - below - equal),
        equal,
        switch (verdict) {
          case BELOW -> DepartureVerdict.ABOVE;
          case ABOVE -> DepartureVerdict.BELOW;
          default -> verdict;
        },
        place,
        pValue,
        pAdjusted,
        tests,
        usual.ofTheRest(),
        questionDiffers,
        fewPhrases,
        delta.negated(),
        shift.negated());
  }

  /** Reads a row of {@code departures}. */
  public static Comparison of(DeparturesRow row) {
    return new Comparison(
        row.student(),
        row.scope() == Scope.POOLED,
        row.soloId(),
        new Group(row.groupBy(), row.groupValue()),
        row.reference(),
        row.referenceReason(),
        row.leftOut(),
        row.leftOutAsPlayer(),
        row.statistic(),
        row.value(),
        row.n(),
        row.solos(),
        row.pooledValue(),
        row.normN(),
        row.normUnnamed(),
        row.onePlayer(),
        new Interval(row.bandMedian(), row.bandLow(), row.bandHigh()),
        row.tempoTakenOut(),
        row.normBelow(),
        row.normEqual(),
        row.verdict(),
        row.place(),
        row.pValue(),
        row.pAdjusted(),
        row.tests(),
        row.intervalLow() == null
            ? Interval.NONE
            : new Interval(null, row.intervalLow(), row.intervalHigh()),
        row.questionDiffers() != null && row.questionDiffers(),
        row.reliability() < 0.5,
        new Interval(row.cliffsDelta(), row.deltaLow(), row.deltaHigh()),
        new Interval(row.shift(), row.shiftLow(), row.shiftHigh()));
  }
}
