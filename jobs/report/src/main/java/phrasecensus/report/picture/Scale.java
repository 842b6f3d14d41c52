package phrasecensus.report.picture;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;

/**
 * A stretch of values laid over a width or a height, with round ends.
 *
 * @param low finite, below {@code high}
 * @param high finite
 * @param step distance of the ticks
 */
public record Scale(double low, double high, double step) {

  /**
   * A scale with about five ticks that holds every value.
   *
   * @param floor no tick stands below it
   * @param ceiling no tick stands above it
   */
  public static Scale covering(Collection<Double> values, double floor, double ceiling) {
    double least = Double.POSITIVE_INFINITY;
    double greatest = Double.NEGATIVE_INFINITY;
    for (double value : values) {
      least = Math.min(least, value);
      greatest = Math.max(greatest, value);
    }
    if (least > greatest) {
      least = Math.max(floor, 0);
      greatest = least + 1;
    }
    double span = greatest - least;
    if (span == 0) {
      span = greatest == 0 ? 1 : Math.abs(greatest) / 2;
      least -= span / 2;
      greatest += span / 2;
    }
    double step = roundStep(span / 4);
    double low = Math.max(floor, Math.floor(least / step) * step);
    double high = Math.min(ceiling, Math.ceil(greatest / step) * step);
    if (high - low < step / 2) {
      low = Math.max(floor, high - step);
      high = Math.min(ceiling, low + step);
    }
    return new Scale(low, high, step);
  }

  /** The nearest of 1, 2, 2.5 and 5 times a power of ten that is not smaller. */
  private static double roundStep(double least) {
    double power = Math.pow(10, Math.floor(Math.log10(least)));
    for (double factor : new double[] {1, 2, 2.5, 5}) {
      if (factor * power >= least * 0.999) {
        return factor * power;
      }
    }
    return 10 * power;
  }

  /** Where a value stands, from 0 to 1; values outside stand at the ends. */
  public double share(double value) {
    return Math.max(0, Math.min(1, (value - low) / (high - low)));
  }

  /** Values of the ticks, ascending. */
  public List<Double> ticks() {
    List<Double> ticks = new ArrayList<>();
    long first = (long) Math.ceil(low / step - 1e-9);
    long last = (long) Math.floor(high / step + 1e-9);
    for (long i = first; i <= last; i++) {
      ticks.add(i * step);
    }
    return ticks;
  }
}
