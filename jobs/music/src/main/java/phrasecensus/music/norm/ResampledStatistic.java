package phrasecensus.music.norm;

import java.util.Arrays;
import java.util.Comparator;
import java.util.stream.IntStream;

/** A number computed from solos each of which counts a whole number of times. */
@FunctionalInterface
public interface ResampledStatistic {
  /**
   * The statistic.
   *
   * @param weights how often each solo counts, at least 0, in the order of the clusters; not to be
   *     kept or changed
   * @return NaN where the statistic is undefined, such as a share of nothing
   */
  double of(int[] weights);

  /** The mean over solos of one value a solo. NaN values are left out. */
  static ResampledStatistic mean(double[] soloValues) {
    double[] values = soloValues.clone();
    return weights -> {
      double sum = 0;
      long count = 0;
      for (int i = 0; i < values.length; i++) {
        if (weights[i] != 0 && !Double.isNaN(values[i])) {
          sum += weights[i] * values[i];
          count += weights[i];
        }
      }
      return sum / count;
    };
  }

  /**
   * A sum over solos divided by another: a pooled mean (sum of the values over their number) or a
   * pooled share. Biased in small groups, as every ratio is.
   */
  static ResampledStatistic ratio(double[] numerators, double[] denominators) {
    if (numerators.length != denominators.length) {
      throw new IllegalArgumentException(
          "Cannot divide: "
              + numerators.length
              + " numerators and "
              + denominators.length
              + " denominators");
    }
    double[] above = numerators.clone();
    double[] below = denominators.clone();
    return weights -> {
      double sum = 0;
      double whole = 0;
      for (int i = 0; i < above.length; i++) {
        sum += weights[i] * above[i];
        whole += weights[i] * below[i];
      }
      return sum / whole;
    };
  }

  /** The type-8 quantile over solos of one value a solo. NaN values are left out. */
  static ResampledStatistic quantile(double[] soloValues, double probability) {
    double[] values = soloValues.clone();
    int[] order =
        IntStream.range(0, values.length)
            .filter(i -> !Double.isNaN(values[i]))
            .boxed()
            .sorted(Comparator.comparingDouble(i -> values[i]))
            .mapToInt(Integer::intValue)
            .toArray();
    return weights -> {
      int n = Arrays.stream(order).map(i -> weights[i]).sum();
      if (n == 0) {
        return Double.NaN;
      }
      double[] sorted = new double[n];
      int filled = 0;
      for (int i : order) {
        Arrays.fill(sorted, filled, filled + weights[i], values[i]);
        filled += weights[i];
      }
      return Quantiles.of(Sample.of(sorted), probability);
    };
  }
}
