package phrasecensus.composer.chance;

import java.util.List;

/**
 * A stream of choices that is the same for the same seed on every machine.
 *
 * <p>The generator is SplitMix64 (Steele, Lea and Flood 2014, "Fast splittable pseudorandom number
 * generators", DOI 10.1145/2660193.2660195). It is written out here, and logarithms come from
 * {@link StrictMath}, because the corpus is compared byte for byte.
 */
public final class Chance {
  private static final long GOLDEN_GAMMA = 0x9e3779b97f4a7c15L;

  private final long seed;
  private long state;

  /** Starts a stream; equal seeds give equal streams. */
  public Chance(long seed) {
    this.seed = seed;
    this.state = seed;
  }

  /**
   * An independent stream that depends only on this stream's seed and the label, not on how many
   * choices were drawn, so that a change in one part of a solo leaves the others as they were.
   */
  public Chance branch(String label) {
    long hash = 0xcbf29ce484222325L;
    for (int i = 0; i < label.length(); i++) {
      hash = (hash ^ label.charAt(i)) * 0x100000001b3L;
    }
    return new Chance(mixed(seed ^ hash));
  }

  /** The next 64 bits. */
  public long bits() {
    state += GOLDEN_GAMMA;
    return mixed(state);
  }

  /** A number from 0 inclusive to 1 exclusive. */
  public double uniform() {
    return (bits() >>> 11) * 0x1.0p-53;
  }

  /**
   * A whole number from 0 to {@code bound} exclusive.
   *
   * @throws IllegalArgumentException if {@code bound} is not positive
   */
  public int below(int bound) {
    if (bound <= 0) {
      throw new IllegalArgumentException("Invalid bound: " + bound);
    }
    return (int) (uniform() * bound);
  }

  /** True with the given probability. */
  public boolean happens(double probability) {
    return uniform() < probability;
  }

  /** A number from {@code low} to {@code high}. */
  public double between(double low, double high) {
    return low + (high - low) * uniform();
  }

  /**
   * The index of one weight, chosen in proportion to it.
   *
   * @throws IllegalArgumentException if no weight is positive
   */
  public int index(double[] weights) {
    double sum = 0;
    for (double weight : weights) {
      sum += weight;
    }
    if (!(sum > 0)) {
      throw new IllegalArgumentException("Cannot choose: no weight is positive");
    }
    double left = uniform() * sum;
    int last = -1;
    for (int i = 0; i < weights.length; i++) {
      if (weights[i] > 0) {
        last = i;
        left -= weights[i];
        if (left < 0) {
          return i;
        }
      }
    }
    return last;
  }

  /** One element, each equally likely. */
  public <T> T element(List<T> list) {
    return list.get(below(list.size()));
  }

  /** A standard normal number (polar method of Marsaglia and Bray 1964, from memory). */
  public double normal() {
    while (true) {
      double u = 2 * uniform() - 1;
      double v = 2 * uniform() - 1;
      double s = u * u + v * v;
      if (s > 0 && s < 1) {
        return u * StrictMath.sqrt(-2 * StrictMath.log(s) / s);
      }
    }
  }

  /**
   * A right-skewed positive number with the given median; {@code sigma} is the spread of its log.
   */
  public double logNormal(double median, double sigma) {
    return median * StrictMath.exp(sigma * normal());
  }

  private static long mixed(long value) {
    long z = (value ^ (value >>> 30)) * 0xbf58476d1ce4e5b9L;
    z = (z ^ (z >>> 27)) * 0x94d049bb133111ebL;
    return z ^ (z >>> 31);
  }
}
