package phrasecensus.music.norm;

import java.util.List;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.distribution.TDistribution;

/**
 * The Hodges-Lehmann shift of two samples: the median of all differences, first less second, in the
 * statistic's own unit.
 *
 * <p>The limits are differences too, by rank. For independent values below fifty without ties the
 * ranks come from the exact Mann-Whitney distribution (as in R's {@code wilcox.test}), else from
 * its normal form. For values in clusters the ranks lie as far from the middle as the clustered
 * standard error of {@link CliffsDelta}, computed on aligned samples, says. No list of differences
 * is made: each is found by bisection with a count in time n + m, or n log m when m is much the
 * greater, so the cost is that times at most 64 after sorting. Source: J. L. Hodges and E. L.
 * Lehmann, "Estimates of location based on rank tests", Annals of Mathematical Statistics 34 (1963)
 * 598-611, doi:10.1214/aoms/1177704172.
 *
 * @param shift in the unit of the values
 * @param interval 95 %; null when the samples are too small for one
 */
public record HodgesLehmann(double shift, Interval interval) {
  /** Samples of this size and more use the normal form. */
  private static final int EXACT_BELOW = 50;

  /**
   * With three clusters on a side the limits often lie beyond all differences, and where they do
   * not they held the truth .91 of the time (the simulation of intervals): no interval is told.
   */
  public static final int LEAST_CLUSTERS = 4;

  /**
   * The shift of independent values.
   *
   * @throws IllegalArgumentException if a sample is empty
   */
  public static HodgesLehmann of(Sample x, Sample y) {
    MannWhitney.requireValues(x, y);
    double pairs = (double) x.size() * y.size();
    double tail = (1 - Interval.USUAL_CONFIDENCE) / 2;
    long rank;
    if (x.size() < EXACT_BELOW && y.size() < EXACT_BELOW && !hasTies(x, y)) {
      rank = RankCounts.rankWithin(tail, x.size(), y.size());
    } else {
      double z = NormalDistribution.of(0, 1).inverseSurvivalProbability(tail);
      rank = (long) Math.floor(pairs / 2 - z * Math.sqrt(pairs * (x.size() + y.size() + 1) / 12));
    }
    return new HodgesLehmann(shift(x, y), interval(x, y, rank));
  }

  /**
   * The shift of all values pooled, with an interval that respects clusters; none with fewer than
   * four clusters on a side.
   *
   * @param x one array of values for each solo of one side
   * @param y the same for the other side
   * @throws IllegalArgumentException if a side has no value or one is not finite
   */
  public static HodgesLehmann ofClusters(List<double[]> x, List<double[]> y) {
    Sample pooledX = CliffsDelta.pooled(x);
    Sample pooledY = CliffsDelta.pooled(y);
    MannWhitney.requireValues(pooledX, pooledY);
    double shift = shift(pooledX, pooledY);
    List<double[]> aligned = x.stream().map(values -> moved(values, -shift)).toList();
    CliffsDelta.Placements placements =
        CliffsDelta.Placements.of(aligned, CliffsDelta.pooled(aligned), y, pooledY);
    if (placements == null || placements.leastClusters() < LEAST_CLUSTERS) {
      return new HodgesLehmann(shift, null);
    }
    double t =
        TDistribution.of(placements.degreesOfFreedom())
            .inverseSurvivalProbability((1 - Interval.USUAL_CONFIDENCE) / 2);
    double pairs = (double) pooledX.size() * pooledY.size();
    // Delta is twice the share of pairs less one, so its error in pairs is halved.
    long rank = (long) Math.floor(pairs / 2 * (1 - t * placements.standardError()));
    return new HodgesLehmann(shift, interval(pooledX, pooledY, rank));
  }

  private static double[] moved(double[] values, double by) {
    double[] moved = values.clone();
    for (int i = 0; i < moved.length; i++) {
      moved[i] += by;
    }
    return moved;
  }

  /**
   * The shift alone.
   *
   * @throws IllegalArgumentException if a sample is empty
   */
  public static double shift(Sample x, Sample y) {
    MannWhitney.requireValues(x, y);
    long pairs = (long) x.size() * y.size();
    double upper = difference(x, y, pairs / 2 + 1);
    return pairs % 2 == 1 ? upper : Sample.midpoint(difference(x, y, pairs / 2), upper);
  }

  private static Interval interval(Sample x, Sample y, long rank) {
    long pairs = (long) x.size() * y.size();
    return rank < 1
        ? null
        : new Interval(
            difference(x, y, rank), difference(x, y, pairs + 1 - rank), Interval.USUAL_CONFIDENCE);
  }

  /** The difference of the given rank, 1 for the least. */
  private static double difference(Sample x, Sample y, long rank) {
    long low = ordered(x.min() - y.max());
    long high = ordered(x.max() - y.min());
    while (low < high) {
      long middle = low + ((high - low) >>> 1);
      if (countAtMost(x, y, fromOrdered(middle)) >= rank) {
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    return fromOrdered(low) + 0.0;
  }

  /** How many differences are at most {@code limit}. */
  private static long countAtMost(Sample x, Sample y, double limit) {
    if ((double) x.size() * searchSteps(y) < y.size()) {
      long count = 0;
      for (int i = 0; i < x.size(); i++) {
        count += y.size() - firstWithin(x.at(i), y, limit);
      }
      return count;
    }
    if ((double) y.size() * searchSteps(x) < x.size()) {
      long count = 0;
      for (int j = 0; j < y.size(); j++) {
        count += firstBeyond(x, y.at(j), limit);
      }
      return count;
    }
    long count = 0;
    int j = 0;
    // Both pointers only move up.
    for (int i = 0; i < x.size(); i++) {
      while (j < y.size() && x.at(i) - y.at(j) > limit) {
        j++;
      }
      count += y.size() - j;
    }
    return count;
  }

  private static int searchSteps(Sample sample) {
    return 33 - Integer.numberOfLeadingZeros(sample.size());
  }

  /** The first place in {@code y} that is not more than {@code limit} below {@code value}. */
  private static int firstWithin(double value, Sample y, double limit) {
    int low = 0;
    int high = y.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (value - y.at(middle) > limit) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }

  /** The first place in {@code x} that is more than {@code limit} above {@code value}. */
  private static int firstBeyond(Sample x, double value, double limit) {
    int low = 0;
    int high = x.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (x.at(middle) - value > limit) {
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    return low;
  }

  /** Maps numbers to whole numbers of the same order, one to one. */
  private static long ordered(double value) {
    long bits = Double.doubleToLongBits(value);
    return bits < 0 ? Long.MIN_VALUE - bits : bits;
  }

  private static double fromOrdered(long ordered) {
    return Double.longBitsToDouble(ordered < 0 ? Long.MIN_VALUE - ordered : ordered);
  }

  private static boolean hasTies(Sample x, Sample y) {
    for (int i = 0; i < x.size(); i++) {
      if (i > 0 && x.at(i) == x.at(i - 1) || y.countBelow(x.at(i)) < y.countAtMost(x.at(i))) {
        return true;
      }
    }
    for (int j = 1; j < y.size(); j++) {
      if (y.at(j) == y.at(j - 1)) {
        return true;
      }
    }
    return false;
  }
}
