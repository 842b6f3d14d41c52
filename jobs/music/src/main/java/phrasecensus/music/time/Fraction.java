package phrasecensus.music.time;

import org.apache.commons.numbers.core.ArithmeticUtils;

/**
 * An exact position or length in score time, in quarter notes unless said otherwise.
 *
 * <p>Always in lowest terms with a positive denominator, so {@code equals} is numeric equality.
 * Sixty-four-bit parts: the fraction type of Commons Numbers has 32-bit parts, which a score with
 * large {@code divisions} overflows. All arithmetic is checked; overflow is an {@link
 * ArithmeticException}, never a wrong number.
 *
 * @param numerator any sign
 * @param denominator positive
 */
public record Fraction(long numerator, long denominator) implements Comparable<Fraction> {
  public static final Fraction ZERO = new Fraction(0, 1);
  public static final Fraction ONE = new Fraction(1, 1);
  public static final Fraction HALF = new Fraction(1, 2);

  /**
   * Reduces to lowest terms.
   *
   * @throws IllegalArgumentException if {@code denominator} is zero
   * @throws ArithmeticException if a part does not fit 64 bits
   */
  public Fraction {
    if (denominator == 0) {
      throw new IllegalArgumentException("Invalid fraction: " + numerator + "/0");
    }
    if (denominator != 1) {
      long divisor = divisor(numerator, denominator);
      if (denominator < 0) {
        divisor = -divisor;
      }
      if (divisor != 1) {
        if (divisor == -1) {
          numerator = Math.negateExact(numerator);
          denominator = Math.negateExact(denominator);
        } else {
          numerator /= divisor;
          denominator /= divisor;
        }
      }
    }
  }

  /** The greatest common divisor; most notes last a power of two, for which no search is needed. */
  private static long divisor(long numerator, long denominator) {
    if (denominator > 0 && (denominator & (denominator - 1)) == 0) {
      long largestPower = Long.lowestOneBit(numerator);
      return largestPower <= 0 || largestPower > denominator ? denominator : largestPower;
    }
    return ArithmeticUtils.gcd(numerator, denominator);
  }

  /** The whole number {@code value}. */
  public static Fraction of(long value) {
    return value == 0 ? ZERO : value == 1 ? ONE : new Fraction(value, 1);
  }

  /** {@code numerator / denominator} in lowest terms. */
  public static Fraction of(long numerator, long denominator) {
    return new Fraction(numerator, denominator);
  }

  /**
   * Reads {@code "7"}, {@code "-3/2"}; the form {@link #toString()} writes.
   *
   * @throws IllegalArgumentException if the text has another form
   */
  public static Fraction parse(String text) {
    try {
      int slash = text.indexOf('/');
      return slash < 0
          ? of(Long.parseLong(text))
          : of(Long.parseLong(text.substring(0, slash)), Long.parseLong(text.substring(slash + 1)));
    } catch (NumberFormatException e) {
      throw new IllegalArgumentException("Invalid fraction: " + text, e);
    }
  }

  public Fraction plus(Fraction other) {
    if (denominator == other.denominator) {
      return new Fraction(Math.addExact(numerator, other.numerator), denominator);
    }
    long divisor = divisor(denominator, other.denominator);
    long scale = other.denominator / divisor;
    return new Fraction(
        Math.addExact(
            Math.multiplyExact(numerator, scale),
            Math.multiplyExact(other.numerator, denominator / divisor)),
        Math.multiplyExact(denominator, scale));
  }

  public Fraction minus(Fraction other) {
    return plus(other.negated());
  }

  public Fraction negated() {
    return new Fraction(Math.negateExact(numerator), denominator);
  }

  public Fraction times(Fraction other) {
    Fraction crossed = new Fraction(numerator, other.denominator);
    Fraction crossedOther = new Fraction(other.numerator, denominator);
    return new Fraction(
        Math.multiplyExact(crossed.numerator, crossedOther.numerator),
        Math.multiplyExact(crossed.denominator, crossedOther.denominator));
  }

  public Fraction times(long factor) {
    return times(of(factor));
  }

  /**
   * @throws IllegalArgumentException if {@code other} is zero
   */
  public Fraction dividedBy(Fraction other) {
    if (other.numerator == 0) {
      throw new IllegalArgumentException("Cannot divide " + this + " by zero");
    }
    Fraction inverse =
        new Fraction(/* numerator= */ other.denominator, /* denominator= */ other.numerator);
    return times(inverse);
  }

  /** The largest whole number not above this fraction. */
  public long floor() {
    return Math.floorDiv(numerator, denominator);
  }

  /** What remains after whole multiples of {@code period}; in [0, period) for a positive period. */
  public Fraction modulo(Fraction period) {
    return minus(period.times(dividedBy(period).floor()));
  }

  public boolean isWhole() {
    return denominator == 1;
  }

  public boolean isZero() {
    return numerator == 0;
  }

  public boolean isPositive() {
    return numerator > 0;
  }

  public boolean isNegative() {
    return numerator < 0;
  }

  public boolean isBefore(Fraction other) {
    return compareTo(other) < 0;
  }

  public boolean isAfter(Fraction other) {
    return compareTo(other) > 0;
  }

  public boolean isAtLeast(Fraction other) {
    return compareTo(other) >= 0;
  }

  public static Fraction larger(Fraction first, Fraction second) {
    return first.compareTo(second) >= 0 ? first : second;
  }

  public static Fraction smaller(Fraction first, Fraction second) {
    return first.compareTo(second) <= 0 ? first : second;
  }

  @Override
  public int compareTo(Fraction other) {
    if (denominator == other.denominator) {
      return Long.compare(numerator, other.numerator);
    }
    long high = Math.multiplyHigh(numerator, other.denominator);
    long otherHigh = Math.multiplyHigh(other.numerator, denominator);
    if (high != otherHigh) {
      return Long.compare(high, otherHigh);
    }
    return Long.compareUnsigned(numerator * other.denominator, other.numerator * denominator);
  }

  /** The nearest {@code double}: for statistics and pictures only. */
  public double toDouble() {
    return (double) numerator / denominator;
  }

  @Override
  public String toString() {
    return denominator == 1 ? Long.toString(numerator) : numerator + "/" + denominator;
  }
}
