package phrasecensus.music.comparison;

import java.io.Serializable;
import phrasecensus.music.norm.NormLevel;
import phrasecensus.music.norm.Quantiles;
import phrasecensus.music.norm.Sample;

/**
 * The middle half of a group on its scale with tempo taken out, to be moved to a student's tempo.
 * Quantiles are of type 8 and unweighted, as in every norm.
 *
 * @param lower lower quartile; NaN below eleven solos
 * @param median NaN without a solo
 * @param upper upper quartile; NaN below eleven solos
 */
public record TempoBand(double lower, double median, double upper) implements Serializable {
  static TempoBand of(double[] residuals) {
    Sample sample = Sample.of(residuals);
    boolean quartiles = NormLevel.of(residuals.length).reaches(NormLevel.QUARTILES);
    return new TempoBand(
        quartiles ? Quantiles.of(sample, .25) : Double.NaN,
        sample.isEmpty() ? Double.NaN : Quantiles.of(sample, .5),
        quartiles ? Quantiles.of(sample, .75) : Double.NaN);
  }

  /** True where there are quartiles. */
  public boolean hasQuartiles() {
    return !Double.isNaN(lower);
  }
}
