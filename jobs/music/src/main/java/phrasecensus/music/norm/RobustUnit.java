package phrasecensus.music.norm;

import java.util.Optional;

/**
 * The zero and the unit of one statistic in a group.
 *
 * @param median of the group
 * @param spread of the group as a robust standard deviation; positive
 */
public record RobustUnit(double median, double spread) {
  /** The unit of a sample; empty when it has no spread. */
  public static Optional<RobustUnit> of(Sample sample) {
    Spread spread = Spread.of(sample);
    return spread.isNone()
        ? Optional.empty()
        : Optional.of(new RobustUnit(sample.median(), spread.size()));
  }
}
