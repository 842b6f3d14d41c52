package phrasecensus.music.statistic;

import java.util.List;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.phrase.Phrase;

/** The statistics of one phrase, as the catalogue {@code schemas/statistics.json} defines them. */
public final class PhraseStatistics {
  private PhraseStatistics() {}

  /**
   * Every statistic of the level <i>phrase</i>, once, in the order of the catalogue; those that are
   * undefined for this phrase have the value null and {@code n} 0. Cost: linear in the notes of the
   * phrase.
   *
   * @param phrase one of the phrases of {@code analysis}
   */
  public static List<StatisticValue> of(SoloAnalysis analysis, Phrase phrase) {
    Tallies tallies = new Tallies();
    tallies.add(new PhraseLine(analysis, phrase));
    return tallies.phraseValues();
  }
}
