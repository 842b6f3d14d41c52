package phrasecensus.music.phrase;

import java.util.Arrays;
import java.util.List;
import java.util.TreeMap;
import java.util.function.DoubleBinaryOperator;

/**
 * Krippendorff's alpha: how far any number of observers agree on any number of units, gaps allowed.
 * 1 is perfect agreement, 0 what chance gives, below 0 is less than that.
 *
 * <p>Source: K. Krippendorff, Computing Krippendorff's Alpha-Reliability, 2011; its worked examples
 * are the tests.
 */
public final class ObserverAgreement {
  /** Two values are alike or not. */
  public static final DoubleBinaryOperator NOMINAL = (one, two) -> one == two ? 0 : 1;

  private ObserverAgreement() {}

  /**
   * The agreement. Units with fewer than two values say nothing and are left out.
   *
   * @param observers one array an observer, all of one length, NaN where nothing was said
   * @param difference how far two values differ: 0 for equal ones, the same both ways
   * @return NaN when no unit has two values; 1 when all values are alike
   * @throws IllegalArgumentException if the arrays differ in length
   */
  public static double alpha(List<double[]> observers, DoubleBinaryOperator difference) {
    int units = observers.isEmpty() ? 0 : observers.get(0).length;
    if (observers.stream().anyMatch(each -> each.length != units)) {
      throw new IllegalArgumentException("Invalid observers: they differ in the number of units");
    }
    TreeMap<Double, Double> totals = new TreeMap<>();
    double observed = 0;
    double pairable = 0;
    for (int unit = 0; unit < units; unit++) {
      int at = unit;
      double[] values =
          observers.stream()
              .mapToDouble(each -> each[at])
              .filter(value -> !Double.isNaN(value))
              .toArray();
      if (values.length < 2) {
        continue;
      }
      pairable += values.length;
      double sum = 0;
      for (double one : values) {
        totals.merge(one, 1.0, Double::sum);
        sum += Arrays.stream(values).map(two -> difference.applyAsDouble(one, two)).sum();
      }
      observed += sum / (values.length - 1);
    }
    double expected = 0;
    for (var one : totals.entrySet()) {
      for (var two : totals.entrySet()) {
        expected +=
            one.getValue() * two.getValue() * difference.applyAsDouble(one.getKey(), two.getKey());
      }
    }
    if (pairable == 0) {
      return Double.NaN;
    }
    return expected == 0 ? 1 : 1 - (pairable - 1) * observed / expected;
  }
}
