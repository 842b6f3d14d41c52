package phrasecensus.music.comparison;

/**
 * How much a solo's value varies for being short: the variance of solos of one player, relative to
 * that of a solo of {@value #USUAL_PHRASES} phrases. Its inverse is the weight of the solo.
 */
public final class RelativeVariance {
  /** Phrases of the solo whose relative variance is 1. */
  public static final int USUAL_PHRASES = 19;

  /**
   * A value that rests on fewer phrases, or on fewer things counted, is not compared (common
   * practice, no source).
   */
  public static final int LEAST_COUNT = 3;

  private RelativeVariance() {}

  /**
   * @param noise share of the variance of a usual solo that its length makes; in [0, 1)
   * @param count phrases that the value rests on, or things counted if they are fewer; positive
   */
  public static double of(double noise, double count) {
    return 1 - noise + noise * USUAL_PHRASES / count;
  }
}
