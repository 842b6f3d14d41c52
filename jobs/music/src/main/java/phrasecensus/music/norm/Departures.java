package phrasecensus.music.norm;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Function;

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
 * move together (the shares of note values do) do not fill the top; then come the others. A facet
 * goes before the others only with a departure of half a robust standard deviation at least: a weak
 * one must not stand before strong ones. No sum over statistics and no grade is made.
 */
public final class Departures {
  /** k of the reliability: the number of phrases that make a value half reliable. */
  public static final double HALF_RELIABLE_N = 5;

  /**
   * A facet's greatest departure goes before stronger ones of other facets only from this strength
   * on, in robust standard deviations.
   */
  public static final double LEAST_FIRST_OF_FACET = 0.5;

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
   * The departures outside the band, the most telling first, by {@link #ranked(List, Function,
   * Function, Function)} with the discounted size as strength.
   */
  public static List<Departure> ranked(List<Departure> departures) {
    return ranked(
        departures.stream().filter(each -> each.verdict().isOutside()).toList(),
        Departure::facet,
        Departure::discounted,
        Departure::key);
  }

  /**
   * The order in which departures are worth a look: of each facet the strongest, if its strength is
   * at least {@link #LEAST_FIRST_OF_FACET}, these in order of strength; then all others in order of
   * strength. Equal strengths go by key. Those without a strength, from a group without spread,
   * come last.
   *
   * @param facet of a departure, never null
   * @param strength discounted size in robust standard deviations; null when there is none
   * @param key different for each, never null
   */
  public static <T> List<T> ranked(
      List<T> departures,
      Function<T, String> facet,
      Function<T, Double> strength,
      Function<T, String> key) {
    List<T> byStrength =
        departures.stream()
            .sorted(
                Comparator.comparing(
                        strength, Comparator.nullsLast(Comparator.<Double>reverseOrder()))
                    .thenComparing(key))
            .toList();
    List<T> first = new ArrayList<>();
    List<T> rest = new ArrayList<>();
    Set<String> facets = new HashSet<>();
    for (T departure : byStrength) {
      Double size = strength.apply(departure);
      boolean strong = size != null && size >= LEAST_FIRST_OF_FACET;
      (strong && facets.add(facet.apply(departure)) ? first : rest).add(departure);
    }
    first.addAll(rest);
    return List.copyOf(first);
  }
}
