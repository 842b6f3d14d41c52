package phrasecensus.music.comparison;

import java.io.Serializable;

/**
 * What a student's solos say together in one statistic.
 *
 * @param value their weighted mean on the scale, tempo taken out
 * @param omega sum of their weights
 * @param solos how many they are
 */
public record StudentMean(double value, double omega, int solos) implements Serializable {
  /**
   * @param values of the solos on the scale, tempo taken out; at least one
   * @param relative their relative variances
   */
  public static StudentMean of(double[] values, double[] relative) {
    double omega = 0;
    double sum = 0;
    for (int i = 0; i < values.length; i++) {
      omega += 1 / relative[i];
      sum += values[i] / relative[i];
    }
    return new StudentMean(sum / omega, omega, values.length);
  }
}
