package phrasecensus.music.statistic;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.phrase.Phrase;

/** The statistics of one solo, as the catalogue {@code schemas/statistics.json} defines them. */
public final class SoloStatistics {
  private SoloStatistics() {}

  /**
   * The statistics of a solo and of its phrases.
   *
   * @param solo every statistic of the level <i>solo</i>, in the order of the catalogue
   * @param phrases for each phrase in order, every statistic of the level <i>phrase</i>
   * @param oddHalf statistics of the first, third … phrase together, for how reliable a value is;
   *     some that join phrases are undefined
   * @param evenHalf those of the second, fourth … phrase
   */
  public record WithPhrases(
      List<StatisticValue> solo,
      List<List<StatisticValue>> phrases,
      List<StatisticValue> oddHalf,
      List<StatisticValue> evenHalf) {
    /** Copies the lists. */
    public WithPhrases {
      solo = List.copyOf(solo);
      phrases = List.copyOf(phrases);
      oddHalf = List.copyOf(oddHalf);
      evenHalf = List.copyOf(evenHalf);
    }
  }

  /**
   * Every statistic of the level <i>solo</i>, once, in the order of the catalogue; those that are
   * undefined for this solo, or for a solo without notes, have the value null and {@code n} 0.
   * Cost: linear in the notes.
   */
  public static List<StatisticValue> of(SoloAnalysis analysis) {
    return withPhrases(analysis).solo();
  }

  /**
   * The statistics of both levels, for less than {@link #of} and {@link PhraseStatistics#of} apart,
   * with the same values. Cost: linear in the notes.
   */
  public static WithPhrases withPhrases(SoloAnalysis analysis) {
    Tallies solo = new Tallies();
    HalfTally odd = new HalfTally(analysis, 0);
    HalfTally even = new HalfTally(analysis, 1);
    List<List<StatisticValue>> phrases = new ArrayList<>(analysis.phrases().size());
    for (Phrase phrase : analysis.phrases()) {
      PhraseLine line = new PhraseLine(analysis, phrase);
      Tallies counted = new Tallies();
      counted.add(line);
      solo.add(line, counted);
      odd.add(line, counted);
      even.add(line, counted);
      phrases.add(counted.phraseValues());
    }
    return new WithPhrases(solo.soloValues(), phrases, odd.values(), even.values());
  }
}
