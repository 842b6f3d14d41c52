package phrasecensus.music.statistic;

import java.util.List;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.phrase.Phrase;

/** The statistics of one solo, as the catalogue {@code schemas/statistics.json} defines them. */
public final class SoloStatistics {
  private SoloStatistics() {}

  /**
   * Every statistic of the level <i>solo</i>, once, in the order of the catalogue; those that are
   * undefined for this solo, or for a solo without notes, have the value null and {@code n} 0. Cost:
   * linear in the notes.
   */
  public static List<StatisticValue> of(SoloAnalysis analysis) {
    Tallies tallies = new Tallies();
    for (Phrase phrase : analysis.phrases()) {
      tallies.add(new PhraseLine(analysis, phrase));
    }
    return tallies.soloValues();
  }
}
