package phrasecensus.comparison;

import java.util.LinkedHashMap;
import java.util.Map;
import phrasecensus.music.norm.ClusterBootstrap;

/**
 * What bootstrap and permutation tests of every study start from. A constant: two studies of the
 * same solos give the same numbers, and nobody can look for a seed that suits them. Recorded in the
 * manifest all the same, for whoever checks the numbers with another program.
 */
public final class Resampling {
  /** Seed of the counter-based random numbers; chosen once, for no reason. */
  static final long SEED = 4711;

  private Resampling() {}

  /** The settings of a study with the seed and the number of resamples. */
  public static Map<String, String> recorded(Map<String, String> settings) {
    Map<String, String> recorded = new LinkedHashMap<>(settings);
    recorded.put("resampling-seed", Long.toString(SEED));
    recorded.put("resamples", Integer.toString(ClusterBootstrap.USUAL_REPLICATES));
    return recorded;
  }
}
