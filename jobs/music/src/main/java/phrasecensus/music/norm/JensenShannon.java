package phrasecensus.music.norm;

import java.util.Arrays;
import java.util.List;

/**
 * How different two mixes of the same classes are (note values, degrees), in bits: 0 for equal
 * mixes, 1 for mixes without a common class. Zeros need no correction. Source: J. Lin, "Divergence
 * measures based on the Shannon entropy", IEEE Transactions on Information Theory 37 (1991)
 * 145-151, doi:10.1109/18.61115; the distance is a metric by D. M. Endres and J. E. Schindelin,
 * IEEE Transactions on Information Theory 49 (2003) 1858-1860, doi:10.1109/TIT.2003.813506.
 *
 * @param divergence in [0, 1]
 * @param contributions what each class adds to the divergence, in the order given; each at least 0
 */
public record JensenShannon(double divergence, List<Double> contributions) {
  public JensenShannon {
    contributions = List.copyOf(contributions);
  }

  /**
   * Compares two mixes.
   *
   * @param p counts or shares of each class; need not add up to 1
   * @param q the same classes in the same order
   * @throws IllegalArgumentException if the numbers of classes differ, or a mix has a negative part
   *     or nothing in it
   */
  public static JensenShannon of(double[] p, double[] q) {
    double[] first = Composition.closed(p);
    double[] second = Composition.closed(q);
    Composition.requireSameParts(first, second);
    Double[] contributions = new Double[first.length];
    double sum = 0;
    for (int i = 0; i < contributions.length; i++) {
      double middle = (first[i] + second[i]) / 2;
      contributions[i] = Math.max(0, (bits(first[i], middle) + bits(second[i], middle)) / 2);
      sum += contributions[i];
    }
    return new JensenShannon(Math.min(1, sum), Arrays.asList(contributions));
  }

  /** The square root of the divergence, in [0, 1]. */
  public double distance() {
    return Math.sqrt(divergence);
  }

  private static double bits(double part, double middle) {
    return part == 0 ? 0 : part * Math.log(part / middle) / Math.log(2);
  }
}
