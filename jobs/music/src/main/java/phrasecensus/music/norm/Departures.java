package phrasecensus.music.norm;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Holds a student's values against norms and puts the departures in an order to work on.
 *
 * <p>Size is the distance beyond the middle band (lower to upper quartile) in units of the group's
 * robust spread. It is multiplied by the reliability of a value that rests on n phrases, n / (n +
 * k) with k = (1 - r) / r, where r is the intraclass correlation of phrases in solos: the
 * Spearman-Brown formula (C. Spearman 1910; W. Brown 1910, from memory). With k = 5 (r = 1/6) three
 * phrases count for three eighths, twenty for four fifths. Measured r in transcribed jazz solos was
 * .17 for notes in a phrase, .30 for bars, .06 for chord-tone endings; one k for all keeps the rule
 * simple to state.
 *
 * <p>In the ranking each facet has its greatest departure first, so that several statistics that
 * move together (the shares of note values do) do not fill the top; then come the others. No sum
 * over statistics and no grade is made.
 */
public final class Departures {
  /** k of the reliability: the number of phrases that make a value half reliable. */
  public static final double HALF_RELIABLE_N = 5;

  private static final Comparator<Departure> GREATEST_FIRST =
      Comparator.comparing(
              Departure::discounted, Comparator.nullsLast(Comparator.<Double>reverseOrder()))
          .thenComparing(Departure::key);

  private Departures() {}

  /** One departure for each value, in the order given. */
  public static List<Departure> of(List<StudentValue> values) {
    return values.stream().map(Departures::of).toList();
  }

  /** The departure of one value. */
  public static Departure of(StudentValue student) {
    Norm norm = student.norm();
    Spread spread = norm.spread();
    Double value = student.value();
    PercentileRank rank =
        value == null || norm.n() == 0 ? null : PercentileRank.of(norm.sample(), value);
    if (value == null || student.n() < student.leastN()) {
      return new Departure(student, Verdict.TOO_LITTLE, rank, null, null, spread);
    }
    if (!norm.hasMiddleBand()) {
      return new Departure(student, Verdict.NO_NORM, rank, null, null, spread);
    }
    double beyond = Math.max(0, Math.max(norm.p25() - value, value - norm.p75()));
    Verdict verdict =
        beyond == 0 ? Verdict.INSIDE_BAND : value < norm.p25() ? Verdict.BELOW : Verdict.ABOVE;
    Double size = beyond == 0 ? (Double) 0.0 : spread.isNone() ? null : beyond / spread.size();
    Double discounted = size == null ? null : size * reliability(student.n());
    return new Departure(student, verdict, rank, size, discounted, spread);
  }

  /**
   * What share of a value's distance from the group is to be believed when it rests on {@code n}
   * phrases: n / (n + 5).
   *
   * @param n at least 0
   * @return from 0 to below 1
   */
  public static double reliability(int n) {
    return n / (n + HALF_RELIABLE_N);
  }

  /**
   * The departures outside the band, the most telling first: of each facet the one of greatest
   * discounted size, these in order of size; then all others in order of size. Equal sizes go by
   * key. Departures from a group without spread have no size and come after those that have one.
   */
  public static List<Departure> ranked(List<Departure> departures) {
    List<Departure> bySize =
        departures.stream()
            .filter(each -> each.verdict().isOutside())
            .sorted(GREATEST_FIRST)
            .toList();
    List<Departure> first = new ArrayList<>();
    List<Departure> rest = new ArrayList<>();
    Set<String> facets = new HashSet<>();
    for (Departure departure : bySize) {
      (facets.add(departure.facet()) ? first : rest).add(departure);
    }
    first.addAll(rest);
    return List.copyOf(first);
  }
}
