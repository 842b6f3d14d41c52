package phrasecensus.music.time;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigInteger;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Held against {@link BigInteger}, which neither overflows nor takes short cuts. */
class FractionTest {
  private static final int CASES = 20_000;
  private static final long SEED = 7;

  /** Parts as scores have them, powers of two among them, and as they would break something. */
  private static long part(Random random) {
    long small = random.nextInt(2_000) - 1_000L;
    return switch (random.nextInt(4)) {
      case 0 -> small;
      case 1 -> (random.nextBoolean() ? 1L : -1L) << random.nextInt(63);
      case 2 -> small * (1L << random.nextInt(40));
      default -> random.nextLong();
    };
  }

  @Test
  void everyFractionIsInLowestTermsOverAPositiveDenominator() {
    Random random = new Random(SEED);
    for (int i = 0; i < CASES; i++) {
      long numerator = part(random);
      long denominator = part(random);
      if (denominator == 0) {
        continue;
      }
      BigInteger over = BigInteger.valueOf(denominator);
      BigInteger divisor =
          BigInteger.valueOf(numerator).gcd(over).multiply(BigInteger.valueOf(over.signum()));

      Fraction fraction = Fraction.of(numerator, denominator);

      assertThat(BigInteger.valueOf(fraction.numerator()))
          .as("seed %d, case %d: %d/%d", SEED, i, numerator, denominator)
          .isEqualTo(BigInteger.valueOf(numerator).divide(divisor));
      assertThat(BigInteger.valueOf(fraction.denominator()))
          .as("seed %d, case %d: %d/%d", SEED, i, numerator, denominator)
          .isEqualTo(over.divide(divisor));
    }
  }

  @Test
  void sumsAreExactOrAnError() {
    Random random = new Random(SEED);
    int errors = 0;
    for (int i = 0; i < CASES; i++) {
      Fraction a = Fraction.of(part(random), 1 + random.nextInt(5_000));
      Fraction b = Fraction.of(part(random), 1L << random.nextInt(30));
      try {
        Fraction sum = a.plus(b);

        assertThat(product(sum.numerator(), a.denominator(), b.denominator()))
            .as("seed %d, case %d: %s + %s", SEED, i, a, b)
            .isEqualTo(
                product(a.numerator(), b.denominator(), sum.denominator())
                    .add(product(b.numerator(), a.denominator(), sum.denominator())));
      } catch (ArithmeticException e) {
        errors++;
      }
    }
    assertThat(errors).isBetween(1, CASES * 3 / 4);
  }

  private static BigInteger product(long a, long b, long c) {
    return BigInteger.valueOf(a).multiply(BigInteger.valueOf(b)).multiply(BigInteger.valueOf(c));
  }

  @Test
  void nothingOverZeroIsNoFraction() {
    assertThatThrownBy(() -> Fraction.of(3, 0))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("Invalid fraction: 3/0");
  }

  @Test
  void zeroIsZeroWhateverItIsOver() {
    assertThat(Fraction.of(0, 480)).isEqualTo(Fraction.ZERO);
    assertThat(Fraction.of(0, -64)).isEqualTo(Fraction.ZERO);
  }
}
