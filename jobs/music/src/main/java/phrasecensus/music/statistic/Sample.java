package phrasecensus.music.statistic;

import java.util.Arrays;
import org.apache.commons.statistics.descriptive.Median;

/** Values of one statistic over the phrases of a solo, as they are met. */
final class Sample {
  private double[] values = new double[8];
  private int size;

  void add(double value) {
    if (size == values.length) {
      values = Arrays.copyOf(values, 2 * size);
    }
    values[size++] = value;
  }

  int size() {
    return size;
  }

  private double[] toArray() {
    return Arrays.copyOf(values, size);
  }

  /** The middle value, of an even number the mean of the middle two; null for no value. */
  Double median() {
    if (size == 0) {
      return null;
    }
    return size == 1 ? values[0] : Median.withDefaults().evaluate(toArray());
  }

  /** Standard deviation with n - 1 of the logarithms to base 2; null for fewer than two values. */
  Double spreadInDoublings() {
    if (size < 2) {
      return null;
    }
    double[] logarithms = toArray();
    double mean = 0;
    for (int i = 0; i < size; i++) {
      logarithms[i] = Math.log(logarithms[i]) / Math.log(2);
      mean += logarithms[i] / size;
    }
    double squares = 0;
    for (double logarithm : logarithms) {
      squares += (logarithm - mean) * (logarithm - mean);
    }
    return Math.sqrt(squares / (size - 1));
  }
}
