package phrasecensus.music.norm;

import org.apache.commons.statistics.inference.AlternativeHypothesis;
import org.apache.commons.statistics.inference.ContinuityCorrection;
import org.apache.commons.statistics.inference.MannWhitneyUTest;

/**
 * The Mann-Whitney (Wilcoxon rank-sum) test of two independent samples of solos.
 *
 * <p>Exact for samples below fifty without ties, else the normal form with mid-ranks, tie-corrected
 * variance and continuity correction: the choices of R's {@code wilcox.test}. Takes its values as
 * independent; phrases of one solo are not, so hand it one value a solo. Source: H. B. Mann and D.
 * R. Whitney, Annals of Mathematical Statistics 18 (1947) 50-60, doi:10.1214/aoms/1177730491.
 *
 * @param w pairs in which the first sample is the greater, ties counting half (R: {@code W})
 * @param pValue null when a sample has fewer than five values: too few for a test
 */
public record MannWhitney(double w, Double pValue) {
  /** Fewer values than this on a side have no p-value (common practice, no source). */
  public static final int LEAST_FOR_P_VALUE = 5;

  /**
   * The two-sided test.
   *
   * @throws IllegalArgumentException if a sample is empty
   */
  public static MannWhitney of(Sample x, Sample y) {
    return of(x, y, AlternativeHypothesis.TWO_SIDED, ContinuityCorrection.ENABLED);
  }

  /**
   * The test against a stated alternative; the correction applies to the normal form only.
   *
   * @throws IllegalArgumentException if a sample is empty
   */
  public static MannWhitney of(
      Sample x, Sample y, AlternativeHypothesis alternative, ContinuityCorrection correction) {
    requireValues(x, y);
    MannWhitneyUTest test = MannWhitneyUTest.withDefaults().with(alternative).with(correction);
    if (Math.min(x.size(), y.size()) < LEAST_FOR_P_VALUE) {
      return new MannWhitney(test.statistic(x.values(), y.values()), null);
    }
    MannWhitneyUTest.Result result = test.test(x.values(), y.values());
    // All values equal: the variance is 0 and nothing speaks against equality.
    double p = Double.isNaN(result.getPValue()) ? 1 : result.getPValue();
    return new MannWhitney(result.getStatistic(), p);
  }

  static void requireValues(Sample x, Sample y) {
    if (x.isEmpty() || y.isEmpty()) {
      throw new IllegalArgumentException("Cannot compare two samples: one is empty");
    }
  }
}
