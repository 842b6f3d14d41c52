package phrasecensus.spark;

import java.util.List;
import phrasecensus.music.norm.NormValue;

/**
 * The value of one statistic in one solo of the corpus.
 *
 * @param soloId the solo
 * @param normValue player and value
 * @param groupValues the solo's group in each column that makes groups, in the order of the columns
 */
record CorpusSolo(String soloId, NormValue normValue, List<String> groupValues) {
  CorpusSolo {
    groupValues = List.copyOf(groupValues);
  }

  /** Null when the statistic is undefined for the solo. */
  Double value() {
    return normValue.value();
  }

  String player() {
    return normValue.player();
  }
}
