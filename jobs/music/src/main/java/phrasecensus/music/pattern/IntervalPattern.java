package phrasecensus.music.pattern;

import java.util.List;
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
