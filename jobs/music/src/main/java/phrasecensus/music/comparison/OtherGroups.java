package phrasecensus.music.comparison;

import java.io.Serializable;
import java.util.List;

/**
 * What the other groups of the corpus say of a group: how much solos vary inside groups, and the
 * mean of the groups' means.
 *
 * @param groups how many speak; 0 where they say nothing
 * @param freedom degrees of freedom: their solos less the number of groups, also where too few
 * @param variance of a usual solo about its group's mean; 0 where they say nothing
 * @param varianceWithin of a usual solo about its player's mean; 0 where they say nothing
 * @param mean mean of the means; 0 where they say nothing
 * @param correlation mean intraclass correlation; 0 where they say nothing
 */
public record OtherGroups(
    int groups,
    int freedom,
    double variance,
    double varianceWithin,
    double mean,
    double correlation)
    implements Serializable {
  /** Fewest degrees of freedom at which they say anything. */
  public static final int LEAST_FREEDOM = 20;

  /** Fewest solos of a group that counts, and of a group that is compared with their help. */
  public static final int LEAST_SOLOS = 6;

  /** Nobody says anything. */
  public static final OtherGroups SILENT = silent(0);

  private static final double NOTHING = 1e-18;

  private static OtherGroups silent(int freedom) {
    return new OtherGroups(0, freedom, 0, 0, 0, 0);
  }

  /** Values of the solos of one group, as {@link PredictiveMixture} takes them. */
  public record Group(double[] values, int[] player, double[] variance) {}

  /** True when they say something. */
  public boolean speak() {
    return groups > 0;
  }

  /**
   * @param groups all other groups; those of fewer than six solos are passed over
   * @param prior what is held of the correlation beforehand
   */
  public static OtherGroups of(List<Group> groups, double[] prior) {
    List<GroupSums> parts =
        groups.stream()
            .filter(group -> group.values.length >= LEAST_SOLOS)
            .map(group -> GroupSums.of(group.values, group.player, group.variance))
            .toList();
    int freedom = parts.stream().mapToInt(GroupSums::solos).sum() - parts.size();
    if (freedom < LEAST_FREEDOM) {
      return silent(freedom);
    }
    Pooled pooled = Pooled.of(parts, prior);
    if (pooled.leastSquares <= NOTHING) {
      return silent(freedom);
    }
    double mean = 0;
    for (GroupSums part : parts) {
      for (int r = 0; r < Correlation.SIZE; r++) {
        mean += pooled.weights[r] * part.mean(r);
      }
    }
    double within = 0;
    for (int r = 0; r < Correlation.SIZE; r++) {
      within += pooled.weights[r] * pooled.variances[r] * (1 - Correlation.at(r));
    }
    return new OtherGroups(
        parts.size(),
        freedom,
        Correlation.mean(pooled.weights, pooled.variances),
        within,
        mean / parts.size(),
        pooled.correlation());
  }

  /** Several groups with one variance and one correlation, each with a mean of its own. */
  record Pooled(double[] weights, double[] variances, double leastSquares) {
    static Pooled of(List<GroupSums> parts, double[] prior) {
      int freedom = parts.stream().mapToInt(GroupSums::solos).sum() - parts.size();
      double[] weights = new double[Correlation.SIZE];
      double[] variances = new double[Correlation.SIZE];
      double least = Double.POSITIVE_INFINITY;
      for (int r = 0; r < Correlation.SIZE; r++) {
        double squares = 0;
        double other = 0;
        for (GroupSums part : parts) {
          squares += part.squares(r);
          other += part.halfLogDeterminant(r) + Math.log(part.information(r)) / 2;
        }
        weights[r] = Math.log(prior[r]) - freedom * Math.log(squares) / 2 - other;
        variances[r] = squares / freedom;
        least = Math.min(least, squares);
      }
      return new Pooled(
          least <= NOTHING ? weights : Correlation.normalised(weights), variances, least);
    }

    double correlation() {
      double sum = 0;
      for (int r = 0; r < Correlation.SIZE; r++) {
        sum += weights[r] * Correlation.at(r);
      }
      return sum;
    }

    double variance() {
      return Correlation.mean(weights, variances);
    }
  }
}
