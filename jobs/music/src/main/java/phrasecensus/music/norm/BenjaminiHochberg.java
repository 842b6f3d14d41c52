package phrasecensus.music.norm;

import java.util.Comparator;
import java.util.stream.IntStream;

/**
 * Adjusts the p-values of many statistics so that, of those called different, at most the stated
 * share is so by chance. Holds for independent tests and positively dependent ones; the number of
 * tests must be told beside the result. Source: Y. Benjamini and Y. Hochberg, "Controlling the
 * false discovery rate", Journal of the Royal Statistical Society B 57 (1995) 289-300,
 * doi:10.1111/j.2517-6161.1995.tb02031.x.
 */
public final class BenjaminiHochberg {
  private BenjaminiHochberg() {}

  /**
   * The adjusted p-values, in the order given: the least of p m / rank over this and all greater
   * p-values, at most 1.
   *
   * @throws IllegalArgumentException if a p-value is not in [0, 1]
   */
  public static double[] adjusted(double... pValues) {
    for (double p : pValues) {
      if (!(p >= 0 && p <= 1)) {
        throw new IllegalArgumentException("Invalid p-value: " + p);
      }
    }
    int m = pValues.length;
    int[] greatestFirst =
        IntStream.range(0, m)
            .boxed()
            .sorted(Comparator.<Integer>comparingDouble(i -> pValues[i]).reversed())
            .mapToInt(Integer::intValue)
            .toArray();
    double[] adjusted = new double[m];
    double least = 1;
    for (int i = 0; i < m; i++) {
      least = Math.min(least, pValues[greatestFirst[i]] * m / (m - i));
      adjusted[greatestFirst[i]] = least;
    }
    return adjusted;
  }
}
