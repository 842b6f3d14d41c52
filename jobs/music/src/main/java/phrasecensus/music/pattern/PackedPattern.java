package phrasecensus.music.pattern;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import phrasecensus.music.time.Fraction;

/**
 * An {@link IntervalPattern} of at most {@value #LONGEST} intervals in two numbers, so that
 * millions of them can be counted.
 *
 * @param intervals how many, and each in seven bits
 * @param gapRatios each ratio of onset gaps in nine bits; 0 where rhythm does not count
 */
public record PackedPattern(long intervals, long gapRatios)
    implements Comparable<PackedPattern>, Serializable {
  /** Most intervals in a pattern. */
  public static final int LONGEST = 8;

  /** Widest interval that is told apart: five octaves and a minor third; wider ones count as it. */
  static final int WIDEST = 63;

  /** Numerators and denominators of gap ratios go up to this. */
  static final int LARGEST_TERM = 16;

  private static final int INTERVAL_BITS = 7;
  private static final int RATIO_BITS = 9;
  private static final int LENGTH_SHIFT = INTERVAL_BITS * LONGEST;

  /** An interval as {@link #intervals} holds it. */
  static long code(int interval) {
    return Math.max(-WIDEST, Math.min(WIDEST, interval)) + (long) WIDEST;
  }

  /** A ratio as {@link #gapRatios} holds it; 0 for one with a term beyond the largest. */
  static long code(Fraction ratio) {
    return ratio.numerator() > LARGEST_TERM || ratio.denominator() > LARGEST_TERM
        ? 0
        : LARGEST_TERM * (ratio.numerator() - 1) + ratio.denominator();
  }

  /** Packs a window of codes. */
  static PackedPattern of(long[] intervals, long[] ratios, int start, int length) {
    long packed = length;
    for (int i = start; i < start + LONGEST; i++) {
      packed = packed << INTERVAL_BITS | (i < start + length ? intervals[i] : 0);
    }
    long pace = 0;
    for (int i = start; ratios != null && i < start + length - 1; i++) {
      pace = pace << RATIO_BITS | ratios[i];
    }
    return new PackedPattern(packed, pace);
  }

  /** How many intervals it has. */
  public int length() {
    return (int) (intervals >>> LENGTH_SHIFT);
  }

  /** True when its rhythm counts. */
  public boolean hasRhythm() {
    return gapRatios != 0;
  }

  /** True for a chromatic run in one direction and for one note again and again. */
  public boolean isRunOrRepetition() {
    long first = interval(0);
    for (int i = 1; i < length(); i++) {
      if (interval(i) != first) {
        return false;
      }
    }
    return Math.abs(first) <= 1;
  }

  private int interval(int place) {
    long code = intervals >>> INTERVAL_BITS * (LONGEST - 1 - place) & (1 << INTERVAL_BITS) - 1;
    return (int) code - WIDEST;
  }

  /** The pattern itself. */
  public IntervalPattern unpacked() {
    List<Integer> steps = new ArrayList<>();
    List<Fraction> ratios = new ArrayList<>();
    for (int i = 0; i < length(); i++) {
      steps.add(interval(i));
    }
    for (int i = length() - 2; i >= 0 && hasRhythm(); i--) {
      long code = (gapRatios >>> RATIO_BITS * i & (1 << RATIO_BITS) - 1) - 1;
      ratios.add(Fraction.of(code / LARGEST_TERM + 1, code % LARGEST_TERM + 1));
    }
    return new IntervalPattern(steps, ratios);
  }

  @Override
  public int compareTo(PackedPattern other) {
    int byIntervals = Long.compare(intervals, other.intervals);
    return byIntervals != 0 ? byIntervals : Long.compare(gapRatios, other.gapRatios);
  }
}
