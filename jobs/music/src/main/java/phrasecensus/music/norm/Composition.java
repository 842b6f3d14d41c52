package phrasecensus.music.norm;

import java.util.List;

/**
 * Mixes whose parts add up to a whole, compared by the ratios of their parts. Source: J. Aitchison,
 * "The Statistical Analysis of Compositional Data" (1986), from memory; zero replacement by J. A.
 * Martín-Fernández, C. Barceló-Vidal and V. Pawlowsky-Glahn, Mathematical Geology 35 (2003) 253-278
 * (from memory).
 *
 * <p>All results depend on what stands in for zeros, so merge rare classes first; with many zeros
 * {@link JensenShannon} is the better choice.
 */
public final class Composition {
  /**
   * What stands in for a zero, times one over the number of cases: 0.65 of the least countable
   * share.
   */
  private static final double SHARE_OF_DETECTION_LIMIT = 0.65;

  private Composition() {}

  /**
   * The parts divided by their sum.
   *
   * @throws IllegalArgumentException if a part is negative or not finite, or all are 0
   */
  public static double[] closed(double... parts) {
    double sum = 0;
    for (double part : parts) {
      if (!(part >= 0) || Double.isInfinite(part)) {
        throw new IllegalArgumentException("Invalid part of a mix: " + part);
      }
      sum += part;
    }
    if (!(sum > 0) || Double.isInfinite(sum)) {
      throw new IllegalArgumentException("Cannot make shares of a mix: its parts add up to " + sum);
    }
    double[] closed = new double[parts.length];
    for (int i = 0; i < closed.length; i++) {
      closed[i] = parts[i] / sum;
    }
    return closed;
  }

  /**
   * The mix with each zero replaced by {@code delta} and the other parts scaled down to make room.
   *
   * @throws IllegalArgumentException if the mix is invalid or the zeros would take the whole of it
   */
  public static double[] withoutZeros(double[] parts, double delta) {
    double[] replaced = closed(parts);
    int zeros = 0;
    for (double part : replaced) {
      zeros += part == 0 ? 1 : 0;
    }
    if (!(delta > 0) || zeros * delta >= 1) {
      throw new IllegalArgumentException("Invalid share in place of a zero: " + delta);
    }
    for (int i = 0; i < replaced.length; i++) {
      replaced[i] = replaced[i] == 0 ? delta : replaced[i] * (1 - zeros * delta);
    }
    return replaced;
  }

  /**
   * What usually stands in for a zero in a mix counted from {@code n} cases: 0.65 / n.
   *
   * @throws IllegalArgumentException if {@code n} is not positive
   */
  public static double usualReplacement(int n) {
    if (n < 1) {
      throw new IllegalArgumentException("Invalid number of cases: " + n);
    }
    return SHARE_OF_DETECTION_LIMIT / n;
  }

  /**
   * Centred log-ratios: the logarithm of each part less the mean logarithm; they add up to 0.
   *
   * @throws IllegalArgumentException if a part is not positive
   */
  public static double[] centredLogRatios(double... parts) {
    double[] logs = logs(closed(parts));
    double mean = 0;
    for (double log : logs) {
      mean += log / logs.length;
    }
    for (int i = 0; i < logs.length; i++) {
      logs[i] -= mean;
    }
    return logs;
  }

  /**
   * The Aitchison distance: Euclidean between centred log-ratios.
   *
   * @throws IllegalArgumentException if a part is not positive or the numbers of parts differ
   */
  public static double distance(double[] p, double[] q) {
    requireSameParts(p, q);
    double[] first = centredLogRatios(p);
    double[] second = centredLogRatios(q);
    double squares = 0;
    for (int i = 0; i < first.length; i++) {
      squares += (first[i] - second[i]) * (first[i] - second[i]);
    }
    return Math.sqrt(squares);
  }

  /**
   * The centre of several mixes: the geometric mean of each part, made to add up to 1.
   *
   * @throws IllegalArgumentException if there is no mix, a part is not positive, or the numbers of
   *     parts differ
   */
  public static double[] centre(List<double[]> mixes) {
    if (mixes.isEmpty()) {
      throw new IllegalArgumentException("Cannot give the centre of mixes: there is none");
    }
    double[] sums = new double[mixes.get(0).length];
    for (double[] mix : mixes) {
      requireSameParts(mix, sums);
      double[] logs = logs(closed(mix));
      for (int i = 0; i < sums.length; i++) {
        sums[i] += logs[i] / mixes.size();
      }
    }
    for (int i = 0; i < sums.length; i++) {
      sums[i] = Math.exp(sums[i]);
    }
    return closed(sums);
  }

  static void requireSameParts(double[] p, double[] q) {
    if (p.length != q.length) {
      throw new IllegalArgumentException(
          "Cannot compare mixes of " + p.length + " and " + q.length + " classes");
    }
  }

  private static double[] logs(double[] parts) {
    double[] logs = new double[parts.length];
    for (int i = 0; i < logs.length; i++) {
      if (parts[i] == 0) {
        throw new IllegalArgumentException(
            "Cannot take the logarithm of a mix: part " + (i + 1) + " is 0");
      }
      logs[i] = Math.log(parts[i]);
    }
    return logs;
  }
}
