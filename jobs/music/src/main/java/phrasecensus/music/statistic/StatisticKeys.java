package phrasecensus.music.statistic;

import java.util.List;

/** The keys that the code computes, in order; the catalogue must list exactly these. */
public final class StatisticKeys {
  private static final List<String> PHRASE = keys(new Tallies().phraseValues());
  private static final List<String> SOLO = keys(new Tallies().soloValues());

  private StatisticKeys() {}

  /** Keys of the statistics that each phrase has. */
  public static List<String> phraseLevel() {
    return PHRASE;
  }

  /** Keys of the statistics that each solo has. */
  public static List<String> soloLevel() {
    return SOLO;
  }

  private static List<String> keys(List<StatisticValue> values) {
    return values.stream().map(StatisticValue::key).toList();
  }
}
