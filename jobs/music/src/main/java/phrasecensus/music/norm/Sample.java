package phrasecensus.music.norm;

import java.util.Arrays;
import java.util.Collection;

/**
 * The values of one statistic in a group, in ascending order: finite numbers, possibly none.
 *
 * <p>The order of the values given does not matter, so nothing computed from a sample depends on
 * the order in which solos were read. Negative zero is kept as zero.
 */
public final class Sample {
  private final double[] sorted;

  private Sample(double[] values) {
    for (int i = 0; i < values.length; i++) {
      if (!Double.isFinite(values[i])) {
        throw new IllegalArgumentException("Invalid value in a sample: " + values[i]);
      }
      values[i] += 0.0;
    }
    Arrays.sort(values);
    this.sorted = values;
  }

  /**
   * A sample of the values given, in any order.
   *
   * @throws IllegalArgumentException if a value is not a number or is infinite
   */
  public static Sample of(double... values) {
    return new Sample(values.clone());
  }

  /**
   * A sample of the values given, in any order.
   *
   * @throws IllegalArgumentException if a value is null, not a number or infinite
   */
  public static Sample of(Collection<Double> values) {
    double[] copy = new double[values.size()];
    int i = 0;
    for (Double value : values) {
      if (value == null) {
        throw new IllegalArgumentException("Invalid value in a sample: null");
      }
      copy[i++] = value;
    }
    return new Sample(copy);
  }

  /** How many values, at least 0. */
  public int size() {
    return sorted.length;
  }

  public boolean isEmpty() {
    return sorted.length == 0;
  }

  /**
   * The value at a place in ascending order.
   *
   * @param index 0 for the least value
   * @throws IndexOutOfBoundsException if there is no such place
   */
  public double at(int index) {
    return sorted[index];
  }

  /** The values in ascending order, a copy. */
  public double[] values() {
    return sorted.clone();
  }

  /**
   * @throws IllegalStateException if the sample is empty
   */
  public double min() {
    requireValues("minimum");
    return sorted[0];
  }

  /**
   * @throws IllegalStateException if the sample is empty
   */
  public double max() {
    requireValues("maximum");
    return sorted[sorted.length - 1];
  }

  /**
   * The arithmetic mean, summed in ascending order.
   *
   * @throws IllegalStateException if the sample is empty
   */
  public double mean() {
    requireValues("mean");
    double sum = 0;
    for (double value : sorted) {
      sum += value;
    }
    double mean = sum / sorted.length;
    // A rounded mean may leave the range when all values are equal.
    return Math.max(sorted[0], Math.min(sorted[sorted.length - 1], mean));
  }

  /**
   * The middle value, or the mean of the two middle values.
   *
   * @throws IllegalStateException if the sample is empty
   */
  public double median() {
    requireValues("median");
    int half = sorted.length / 2;
    return sorted.length % 2 == 1 ? sorted[half] : midpoint(sorted[half - 1], sorted[half]);
  }

  /**
   * The median of the distances from the median, in the unit of the values, not scaled (R: {@code
   * mad(x, constant = 1)}); 0 when more than half the values are equal.
   *
   * @throws IllegalStateException if the sample is empty
   */
  public double medianAbsoluteDeviation() {
    double median = median();
    double[] distances = new double[sorted.length];
    for (int i = 0; i < distances.length; i++) {
      distances[i] = Math.abs(sorted[i] - median);
    }
    return Sample.of(distances).median();
  }

  /** How many values lie below {@code value}. */
  public int countBelow(double value) {
    int low = 0;
    int high = sorted.length;
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (sorted[middle] < value) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }

  /** How many values lie at or below {@code value}. */
  public int countAtMost(double value) {
    int low = 0;
    int high = sorted.length;
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (sorted[middle] <= value) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }

  static double midpoint(double low, double high) {
    return low == high ? low : low + (high - low) / 2;
  }

  private void requireValues(String what) {
    if (sorted.length == 0) {
      throw new IllegalStateException("Cannot give the " + what + " of a sample: it is empty");
    }
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Sample sample && Arrays.equals(sorted, sample.sorted);
  }

  @Override
  public int hashCode() {
    return Arrays.hashCode(sorted);
  }

  @Override
  public String toString() {
    return Arrays.toString(sorted);
  }
}
