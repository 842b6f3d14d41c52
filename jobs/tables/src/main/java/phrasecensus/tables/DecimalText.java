package phrasecensus.tables;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;

/**
 * A double as text: the fewest significant digits, from 15 to 17, that give the same double back.
 * Written without the help of {@link Double#toString(double)}, whose digits changed with Java 19:
 * an export has the same bytes under every Java.
 */
public final class DecimalText {
  private static final double LARGEST_EXACT = 1L << 53;
  private static final int MOST_ZEROS = 7;
  private static final int MOST_DIGITS = 21;

  private DecimalText() {}

  /**
   * @param value a finite number
   * @return as in {@code 0.25}, {@code -3} or {@code 1E-9}
   * @throws IllegalArgumentException for what is not finite
   */
  public static String of(double value) {
    if (Double.isNaN(value) || Double.isInfinite(value)) {
      throw new IllegalArgumentException("Invalid decimal: " + value);
    }
    if (value == Math.rint(value) && Math.abs(value) < LARGEST_EXACT) {
      return Long.toString((long) value);
    }
    BigDecimal exact = new BigDecimal(value);
    for (int digits = 15; digits <= 17; digits++) {
      BigDecimal rounded = exact.round(new MathContext(digits, RoundingMode.HALF_EVEN));
      if (rounded.doubleValue() == value) {
        BigDecimal shortest = rounded.stripTrailingZeros();
        int magnitude = shortest.precision() - shortest.scale();
        return magnitude < -MOST_ZEROS || magnitude > MOST_DIGITS
            ? shortest.toString()
            : shortest.toPlainString();
      }
    }
    throw new IllegalStateException("17 digits do not give " + value + " back");
  }
}
