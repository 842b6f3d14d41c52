package phrasecensus.report.rows;

import java.util.List;
import java.util.Map;

/**
 * A solo of a student with its values and its line.
 *
 * @param values by key of the catalogue; a statistic that was not computed is absent
 * @param phraseValues the same for each phrase, by its index
 * @param neighbours corpus solos nearest to it, the nearest first
 */
public record StudentSolo(
    SoloFacts facts,
    Map<String, Value> values,
    Map<Integer, Map<String, Value>> phraseValues,
    SoloLine line,
    List<Neighbour> neighbours) {
  public StudentSolo {
    values = Map.copyOf(values);
    phraseValues = Map.copyOf(phraseValues);
    neighbours = List.copyOf(neighbours);
  }

  /** True where some solo of the corpus is like it: nearer than solos of different groups are. */
  public boolean isLikeAny() {
    return neighbours.stream().anyMatch(Neighbour::like);
  }

  /** The value of a statistic; undefined when it was not computed. */
  public Value value(String statistic) {
    return values.getOrDefault(statistic, Value.UNDEFINED);
  }

  /** The value of a statistic in a phrase; undefined when it was not computed. */
  public Value value(int phrase, String statistic) {
    return phraseValues.getOrDefault(phrase, Map.of()).getOrDefault(statistic, Value.UNDEFINED);
  }
}
