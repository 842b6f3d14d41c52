package phrasecensus.music.norm;

import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * Random numbers that depend on nothing but a seed and where they are used: the same for (seed,
 * replicate, stratum) whatever was drawn before, on any machine, thread or partition.
 *
 * <p>The three numbers are folded into a start by s = mix(s + G + number), beginning at 0, and the
 * stream then runs as SplitMix64: state += G, output mix(state). G is the odd number nearest to
 * 2^64 over the golden ratio, mix the finalizer of that generator. Source: G. L. Steele, D. Lea and
 * C. H. Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014, 453-472,
 * doi:10.1145/2660193.2660195. Not for secrets.
 *
 * <p>A stream is for one thread.
 */
public final class CounterRandom {
  private static final long G = 0x9e3779b97f4a7c15L;
  private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

  private long state;

  private CounterRandom(long state) {
    this.state = state;
  }

  /** The stream of one stratum of one replicate. */
  public static CounterRandom of(long seed, long replicate, long stratum) {
    return new CounterRandom(fold(fold(fold(0, seed), replicate), stratum));
  }

  /** The next 64 random bits. */
  public long bits() {
    state += G;
    return mix(state);
  }

  /**
   * A whole number from 0 to below {@code bound}. The bias is less than bound / 2^32 and so cannot
   * be seen in any number of replicates used here.
   *
   * @throws IllegalArgumentException if {@code bound} is not positive
   */
  public int index(int bound) {
    if (bound <= 0) {
      throw new IllegalArgumentException("Invalid bound of a random index: " + bound);
    }
    return (int) (((bits() >>> 32) * bound) >>> 32);
  }

  /** A number in (0, 1), never an end. */
  public double uniform() {
    return ((bits() >>> 12) + 0.5) * 0x1.0p-52;
  }

  /**
   * A number from the standard normal distribution, by the inverse of its distribution function.
   */
  public double gaussian() {
    return NORMAL.inverseCumulativeProbability(uniform());
  }

  private static long fold(long start, long number) {
    return mix(start + G + number);
  }

  private static long mix(long value) {
    long mixed = (value ^ (value >>> 30)) * 0xbf58476d1ce4e5b9L;
    mixed = (mixed ^ (mixed >>> 27)) * 0x94d049bb133111ebL;
    return mixed ^ (mixed >>> 31);
  }
}
