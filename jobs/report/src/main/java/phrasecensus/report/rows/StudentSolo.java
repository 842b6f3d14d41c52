package phrasecensus.report.rows;

import java.util.Map;

/**
 * A solo of a student with its values and its line.
 *
 * @param values by key of the catalogue; a statistic that was not computed is absent
 */
public record StudentSolo(SoloFacts facts, Map<String, Value> values, SoloLine line) {
  public StudentSolo {
    values = Map.copyOf(values);
  }

  /** The value of a statistic; undefined when it was not computed. */
  public Value value(String statistic) {
    return values.getOrDefault(statistic, new Value(null, 0));
  }
}
