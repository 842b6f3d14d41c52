package phrasecensus.music.comparison;

import java.io.Serializable;

/**
 * The range of tempo in which figures are taken to depend on it, and the two numbers by which they
 * do: doublings above 170 quarter notes a minute, and their square.
 *
 * @param low the slowest tempo that slopes know, in quarter notes a minute; slower counts as this
 * @param high the fastest
 */
public record TempoScale(double low, double high) implements Serializable {
  private static final double MIDDLE = 170;

  /**
   * @throws IllegalArgumentException if the ends are not positive and in order
   */
  public TempoScale {
    if (!(low > 0 && low <= high && Double.isFinite(high))) {
      throw new IllegalArgumentException("Invalid range of tempo: " + low + " to " + high);
    }
  }

  /**
   * Doublings above 170 quarter notes a minute.
   *
   * @param tempo in quarter notes a minute
   */
  public double doublings(double tempo) {
    return Math.log(Math.min(high, Math.max(low, tempo)) / MIDDLE) / Math.log(2);
  }

  /** The same range, widened to hold these tempos; NaN and what is not positive is passed over. */
  public TempoScale holding(double... tempos) {
    double least = low;
    double greatest = high;
    for (double tempo : tempos) {
      if (tempo > 0 && Double.isFinite(tempo)) {
        least = Math.min(least, tempo);
        greatest = Math.max(greatest, tempo);
      }
    }
    return new TempoScale(least, greatest);
  }
}
