package phrasecensus.tables;

import java.util.List;

/**
 * Which phrases somebody looks for.
 *
 * @param title in words; empty to have it made of the conditions
 * @param conditions all of which a phrase must have; one at least
 */
public record PhraseQuery(String title, List<PhraseCondition> conditions) {
  /**
   * @throws InputException if there is no condition
   */
  public PhraseQuery {
    conditions = List.copyOf(conditions);
    if (conditions.isEmpty()) {
      throw new InputException(
          "Cannot look for phrases without a condition. Say " + PhraseCondition.FORMS + ".");
    }
  }

  /** A query of written conditions. */
  public static PhraseQuery of(String title, List<String> conditions) {
    return new PhraseQuery(title, conditions.stream().map(PhraseCondition::parse).toList());
  }
}
