package phrasecensus.music.norm;

import java.time.LocalDate;
import java.util.Objects;

/**
 * The value of a statistic for a solo played on a known day.
 *
 * @param date never null
 * @param value finite
 */
public record DatedValue(LocalDate date, double value) {
  /**
   * @throws IllegalArgumentException if the value is not finite
   */
  public DatedValue {
    Objects.requireNonNull(date, "date");
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException("Invalid value of a statistic: " + value);
    }
  }
}
