package phrasecensus.comparison;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.music.norm.JensenShannon;
import phrasecensus.music.norm.NormLevel;
import phrasecensus.music.norm.Sample;
import phrasecensus.tables.MixDefinition;

/**
 * A mix in one group of the corpus: the mean of the shares of its solos, each solo counting once,
 * and how far single solos lie from the mean of the others.
 */
final class GroupMix {
  private final CorpusGroup group;
  private final int solos;
  private final double[] mean;
  private final Sample distances;

  private GroupMix(CorpusGroup group, int solos, double[] mean, Sample distances) {
    this.group = group;
    this.solos = solos;
    this.mean = mean;
    this.distances = distances;
  }

  /**
   * @param shares the group in each class of the mix, with the same solos
   */
  static GroupMix of(MixDefinition mix, List<CorpusGroup> shares) {
    int classes = mix.classes().size();
    List<double[]> mixes = new ArrayList<>();
    for (int solo = 0; solo < shares.get(0).solos().size(); solo++) {
      double[] one = new double[classes];
      boolean defined = true;
      for (int i = 0; i < classes && defined; i++) {
        Double value = shares.get(i).solos().get(solo).value();
        defined = value != null;
        one[i] = defined ? value : 0;
      }
      if (defined && sum(one) > 0) {
        mixes.add(one);
      }
    }
    double[] sums = new double[classes];
    for (double[] one : mixes) {
      for (int i = 0; i < classes; i++) {
        sums[i] += one[i];
      }
    }
    double[] distances =
        new double[mixes.size() < NormLevel.QUARTILES.leastSize() ? 0 : mixes.size()];
    for (int solo = 0; solo < distances.length; solo++) {
      double[] others = new double[classes];
      for (int i = 0; i < classes; i++) {
        others[i] = Math.max(0, sums[i] - mixes.get(solo)[i]);
      }
      distances[solo] = JensenShannon.of(mixes.get(solo), others).distance();
    }
    double[] mean = new double[classes];
    for (int i = 0; i < classes; i++) {
      mean[i] = mixes.isEmpty() ? 0 : sums[i] / mixes.size();
    }
    return new GroupMix(shares.get(0), mixes.size(), mean, Sample.of(distances));
  }

  private static double sum(double[] parts) {
    double sum = 0;
    for (double part : parts) {
      sum += part;
    }
    return sum;
  }

  String by() {
    return group.by();
  }

  String value() {
    return group.value();
  }

  boolean isFor(Student student) {
    return group.isFor(student);
  }

  /** How many solos have such a mix. */
  int solos() {
    return solos;
  }

  /** The share of each class. */
  double[] mean() {
    return mean.clone();
  }

  /** Distances of single solos from the mean of the others; empty below eleven solos. */
  Sample distances() {
    return distances;
  }
}
