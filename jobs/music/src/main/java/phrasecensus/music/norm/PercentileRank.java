package phrasecensus.music.norm;

import java.util.Locale;

/**
 * Where one value stands among the values of a group.
 *
 * <p>The rank is 100 (B + E/2) / n with B values below and E equal (the mean-rank form). The words
 * never say 0 or 100: a value beyond all others is "below all n" or "above all n", which says how
 * many others there were.
 *
 * @param below how many of the group lie below the value
 * @param equal how many of the group equal it
 * @param n size of the group, at least 1
 */
public record PercentileRank(int below, int equal, int n) {
  /** Groups below this size have no percentiles worth the name: their counts are told. */
  private static final int LEAST_FOR_PERCENTILES = 6;

  /**
   * @throws IllegalArgumentException if the counts are negative or more than n, or n is not
   *     positive
   */
  public PercentileRank {
    if (n < 1 || below < 0 || equal < 0 || equal > n - below) {
      throw new IllegalArgumentException(
          "Invalid percentile rank: " + below + " below and " + equal + " equal of " + n);
    }
  }

  /**
   * The rank of {@code value} in {@code group}; the value is not itself a member.
   *
   * @throws IllegalArgumentException if the group is empty or the value not finite
   */
  public static PercentileRank of(Sample group, double value) {
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException("Invalid value to rank: " + value);
    }
    if (group.isEmpty()) {
      throw new IllegalArgumentException("Cannot rank a value: the group is empty");
    }
    int below = group.countBelow(value);
    return new PercentileRank(below, group.countAtMost(value) - below, group.size());
  }

  /** 100 (B + E/2) / n, from 0 to 100; for tables, not for sentences. */
  public double percent() {
    return 100 * (below + equal / 2.0) / n;
  }

  /** How many of the group lie above the value. */
  public int above() {
    return n - below - equal;
  }

  /**
   * The rank in a researcher's words: "about the 70th percentile of n = 10 solos", "below all n =
   * 10 solos", "equal to all n = 10 solos". Below six values, which have no percentiles worth the
   * name: "above 2 and below 1 of n = 3 solos".
   *
   * @param units plural noun for the members of the group, such as {@code solos} or {@code phrases}
   */
  public String statement(String units) {
    if (n == 1) {
      return (below == 1 ? "above" : equal == 1 ? "equal to" : "below") + " the only value, n = 1";
    }
    String group = "n = " + n + " " + units;
    if (below == n) {
      return "above all " + group;
    }
    if (above() == n) {
      return "below all " + group;
    }
    if (equal == n) {
      return "equal to all " + group;
    }
    if (n < LEAST_FOR_PERCENTILES) {
      return "above " + below + " and below " + above() + " of " + group;
    }
    int percentile = (int) Math.max(1, Math.min(99, Math.round(percent())));
    return "about the " + percentile + ordinalEnding(percentile) + " percentile of " + group;
  }

  /**
   * The rank in a musician's words, from the side that says more: "longer than about 7 of 10
   * solos", "shorter than all 10 solos", "the same as all 10 solos", "in the middle: about as many
   * solos are longer as shorter". The group is counted out, however large, so that nobody reads "95
   * of 100" of twenty; with equal values, which count half, it is "about".
   *
   * @param higher comparative for a greater value, such as {@code longer}
   * @param lower comparative for a smaller value, such as {@code shorter}
   * @param units plural noun for the members of the group
   */
  public String words(String higher, String lower, String units) {
    if (n == 1) {
      return equal == 1
          ? "the same as the only one"
          : (below == 1 ? higher : lower) + " than the only one";
    }
    String all = " than all " + n + " " + units;
    if (below == n) {
      return higher + all;
    }
    if (above() == n) {
      return lower + all;
    }
    if (equal == n) {
      return "the same as all " + n + " " + units;
    }
    double percent = percent();
    if (Math.abs(percent - 50) < 5) {
      return "in the middle: about as many " + units + " are " + higher + " as " + lower;
    }
    boolean upperHalf = percent > 50;
    String comparative = upperHalf ? higher : lower;
    double part = (upperHalf ? percent : 100 - percent) / 100;
    int whole = upperHalf ? below : above();
    return equal == 0
        ? comparative + " than " + whole + " of " + n + " " + units
        : about(comparative, Math.min(n - 1, Math.round(part * n)), n, units);
  }

  private static String about(String comparative, long part, int whole, String units) {
    return String.format(Locale.ROOT, "%s than about %d of %d %s", comparative, part, whole, units);
  }

  private static String ordinalEnding(int number) {
    if (number >= 11 && number <= 13) {
      return "th";
    }
    return switch (number % 10) {
      case 1 -> "st";
      case 2 -> "nd";
      case 3 -> "rd";
      default -> "th";
    };
  }
}
