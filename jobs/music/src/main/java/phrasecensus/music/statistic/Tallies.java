package phrasecensus.music.statistic;

import java.util.List;
import phrasecensus.music.analysis.GuideTones;

/** The counts of the four facets, in the order of the catalogue. */
final class Tallies {
  private final HarmonyTally harmony = new HarmonyTally();
  private final MovementTally movement = new MovementTally();
  private final PhrasingTally phrasing = new PhrasingTally();
  private final LineTally line = new LineTally();

  /** Counts a phrase. */
  void add(PhraseLine phrase) {
    harmony.add(phrase);
    movement.add(phrase);
    phrasing.add(phrase);
    line.add(phrase);
  }

  /**
   * Adds a phrase that was counted alone. What is costly to count is taken over; the rest is
   * counted again, because it joins phrases or keeps a value for each.
   */
  void add(PhraseLine phrase, Tallies counted) {
    harmony.add(counted.harmony);
    movement.add(counted.movement);
    phrasing.add(phrase);
    line.add(phrase);
  }

  List<StatisticValue> phraseValues() {
    StatisticList out = new StatisticList();
    harmony.phraseValues(out);
    movement.phraseValues(out);
    phrasing.phraseValues(out);
    line.phraseValues(out);
    return out.values();
  }

  /**
   * The values of a part of the solo; what joins phrases that are not next to each other is
   * missing.
   */
  List<StatisticValue> partValues(GuideTones.AtChanges atChanges) {
    StatisticList out = new StatisticList();
    harmony.partValues(out, atChanges);
    movement.soloValues(out, phrasing);
    phrasing.soloValues(out);
    line.partValues(out);
    return out.values();
  }

  List<StatisticValue> soloValues() {
    StatisticList out = new StatisticList();
    harmony.soloValues(out);
    movement.soloValues(out, phrasing);
    phrasing.soloValues(out);
    line.soloValues(out);
    return out.values();
  }
}
