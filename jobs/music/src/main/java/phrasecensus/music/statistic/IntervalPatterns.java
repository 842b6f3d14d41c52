package phrasecensus.music.statistic;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * How often each run of {@code n} successive intervals occurs: patterns that do not depend on
 * transposition and never cross the end of a phrase. A window recurs when its pattern occurs at
 * least twice. The share of windows that recur grows with the amount of music, so it compares only
 * between equal amounts.
 */
public final class IntervalPatterns {
  private final int length;
  private final Map<List<Integer>, List<Place>> places;
  private final int windows;
  private final int recurring;

  /**
   * Where a pattern begins.
   *
   * @param run index of the run of intervals, as of a phrase
   * @param start index of the pattern's first interval in the run, which is the index of its first
   *     note in the phrase
   */
  public record Place(int run, int start) {}

  private IntervalPatterns(int length, Map<List<Integer>, List<Place>> places) {
    this.length = length;
    this.places = places;
    int all = 0;
    int again = 0;
    for (List<Place> found : places.values()) {
      all += found.size();
      again += found.size() > 1 ? found.size() : 0;
    }
    this.windows = all;
    this.recurring = again;
  }

  /**
   * Counts the patterns of a length.
   *
   * @param runs intervals in semitones, upwards positive, one run a phrase
   * @param length intervals in a pattern, at least 1; 3 to 8 are usual
   * @throws IllegalArgumentException if {@code length} is below 1
   */
  public static IntervalPatterns of(List<int[]> runs, int length) {
    if (length < 1) {
      throw new IllegalArgumentException("Invalid pattern length: " + length);
    }
    Map<List<Integer>, List<Place>> places = new LinkedHashMap<>();
    for (int run = 0; run < runs.size(); run++) {
      int[] intervals = runs.get(run);
      for (int start = 0; start + length <= intervals.length; start++) {
        List<Integer> pattern = new ArrayList<>(length);
        for (int i = start; i < start + length; i++) {
          pattern.add(intervals[i]);
        }
        places.computeIfAbsent(pattern, p -> new ArrayList<>(1)).add(new Place(run, start));
      }
    }
    return new IntervalPatterns(length, places);
  }

  /**
   * The same without patterns that are nothing but a chromatic run in one direction or one note
   * again and again, which head every list.
   */
  public IntervalPatterns withoutRunsAndRepetitions() {
    Map<List<Integer>, List<Place>> kept = new LinkedHashMap<>();
    places.forEach(
        (pattern, found) -> {
          if (!isRunOrRepetition(pattern)) {
            kept.put(pattern, found);
          }
        });
    return new IntervalPatterns(length, kept);
  }

  private static boolean isRunOrRepetition(List<Integer> pattern) {
    int first = pattern.get(0);
    return Math.abs(first) <= 1 && pattern.stream().allMatch(interval -> interval == first);
  }

  /** Intervals in a pattern. */
  public int length() {
    return length;
  }

  /** Windows looked at. */
  public int windows() {
    return windows;
  }

  /** Windows whose pattern occurs at least twice. */
  public int recurringWindows() {
    return recurring;
  }

  /** The patterns in order of first occurrence, each with its places in order. */
  public Map<List<Integer>, List<Place>> places() {
    return Collections.unmodifiableMap(places);
  }
}
