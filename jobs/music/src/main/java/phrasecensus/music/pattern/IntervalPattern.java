package phrasecensus.music.pattern;

import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import phrasecensus.music.time.Fraction;

/**
 * A melodic figure without its pitch level and, where rhythm counts, without its pace.
 *
 * @param intervals from note to note in semitones, upwards positive; at least one
 * @param gapRatios each onset gap over the one before, so one fewer than intervals; empty where
 *     rhythm does not count
 */
public record IntervalPattern(List<Integer> intervals, List<Fraction> gapRatios) {
  /** Different pitches of a figure: two are a repeated note or a trill. */
  private static final int LEAST_PITCHES = 3;

  /** Widest step of a scale, in semitones. */
  private static final int WIDEST_STEP = 2;

  /**
   * Copies the lists.
   *
   * @throws IllegalArgumentException if their sizes do not fit
   */
  public IntervalPattern {
    intervals = List.copyOf(intervals);
    gapRatios = List.copyOf(gapRatios);
    if (intervals.isEmpty() || !gapRatios.isEmpty() && gapRatios.size() != intervals.size() - 1) {
      throw new IllegalArgumentException(
          "Invalid interval pattern: " + intervals + " with gap ratios " + gapRatios);
    }
  }

  /** True for a chromatic run in one direction and for one note again and again. */
  public boolean isRunOrRepetition() {
    int first = intervals.get(0);
    return Math.abs(first) <= 1 && intervals.stream().allMatch(interval -> interval == first);
  }

  /**
   * True for a pattern that is worth being shown as a figure: one that reaches at least three
   * different pitches, has no more repeated notes than moves, and is no run by steps of one or two
   * semitones in one direction. What is left out (one note again and again, trills, scales) is in
   * every solo and tells nothing of whose it is.
   *
   * <p>Common practice, no source: counts of patterns such as Norgaard (2014), "How jazz musicians
   * improvise: the central role of auditory and motor patterns", Music Perception 31(3), leave
   * nothing out.
   */
  public boolean isFigure() {
    Set<Integer> pitches = new HashSet<>(Set.of(0));
    int pitch = 0;
    int repeated = 0;
    boolean up = false;
    boolean down = false;
    boolean leap = false;
    for (int interval : intervals) {
      pitch += interval;
      pitches.add(pitch);
      repeated += interval == 0 ? 1 : 0;
      up |= interval > 0;
      down |= interval < 0;
      leap |= Math.abs(interval) > WIDEST_STEP;
    }
    return pitches.size() >= LEAST_PITCHES
        && 2 * repeated <= intervals.size()
        && (up && down || leap);
  }

  /**
   * True when the other pattern has the intervals of this one in a row; rhythm is not looked at.
   *
   * @param other of any length
   */
  public boolean isPartOf(IntervalPattern other) {
    return Collections.indexOfSubList(other.intervals, intervals) >= 0;
  }

  /** As in {@code +2 +2 -1 0}, with rhythm as in {@code +2 +2 -1 0 | 1 1/2 2}; stable. */
  public String text() {
    String steps =
        intervals.stream()
            .map(interval -> interval > 0 ? "+" + interval : interval.toString())
            .collect(Collectors.joining(" "));
    return gapRatios.isEmpty()
        ? steps
        : steps
            + gapRatios.stream()
                .map(Fraction::toString)
                .collect(Collectors.joining(" ", " | ", ""));
  }
}
