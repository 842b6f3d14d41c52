package phrasecensus.report.rows;

import java.util.Arrays;
import java.util.Collection;

/**
 * How many phrases are how long, counted by half bars: all that a picture of lengths needs of any
 * number of phrases.
 */
public final class PhraseLengthCounts {
  /**
   * Width of a class in bars; a length that is a whole number of widths is in the class it ends.
   */
  public static final double CLASS = 0.5;

  /**
   * Longest length in bars that has a class of its own; what is longer is in the class after it.
   */
  private static final int LONGEST = 24;

  private final long[] phrases = new long[(int) (LONGEST / CLASS) + 1];
  private long all;

  /** No phrases. */
  public PhraseLengthCounts() {}

  /** The counts of some lengths in bars. */
  public static PhraseLengthCounts of(Collection<Double> lengths) {
    PhraseLengthCounts counts = new PhraseLengthCounts();
    lengths.forEach(counts::add);
    return counts;
  }

  /**
   * Counts a phrase.
   *
   * @param length in bars, above 0
   */
  void add(double length) {
    int place = (int) Math.ceil(length / CLASS) - 1;
    phrases[Math.max(0, Math.min(phrases.length - 1, place))]++;
    all++;
  }

  /** How many phrases there are. */
  public long all() {
    return all;
  }

  /**
   * Phrases longer than one length and not longer than another.
   *
   * @param low in bars, a whole number of classes, below 24.5
   * @param high the same, or infinite
   */
  public long within(double low, double high) {
    int from = (int) Math.round(low / CLASS);
    int to = (int) Math.min(phrases.length, Math.round(high / CLASS));
    return Arrays.stream(phrases, from, to).sum();
  }

  /**
   * Upper end of the class of the length that a share of the phrases does not exceed.
   *
   * @param share 0 to 1, of the phrases but one in ascending order
   * @return in bars; 24.5 for any length beyond 24, 0 without phrases
   * @throws IllegalArgumentException if the share is above 1
   */
  public double upTo(double share) {
    if (all == 0) {
      return 0;
    }
    long place = (long) Math.floor(share * (all - 1));
    long seen = 0;
    for (int i = 0; i < phrases.length; i++) {
      seen += phrases[i];
      if (seen > place) {
        return (i + 1) * CLASS;
      }
    }
    throw new IllegalArgumentException("Invalid share of phrases: " + share);
  }
}
