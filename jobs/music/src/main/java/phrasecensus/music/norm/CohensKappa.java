package phrasecensus.music.norm;

import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Agreement of two observers on the same things beyond what chance gives: (p_o − p_e) / (1 − p_e),
 * p_o the share of equal verdicts, p_e that of two observers who deal out the same verdicts as
 * often and know nothing of the things.
 *
 * <p>Source: J. Cohen, A coefficient of agreement for nominal scales, Educational and Psychological
 * Measurement 20 (1960), doi:10.1177/001316446002000104.
 *
 * @param things how many both judged
 * @param alike how many got equal verdicts
 * @param kappa 1 for perfect agreement, 0 for what chance gives, less for less; null where chance
 *     alone would agree on everything, as when both have one verdict for all, and without any thing
 */
public record CohensKappa(int things, int alike, Double kappa) {
  /**
   * The agreement.
   *
   * @param one verdicts of one observer
   * @param other verdicts of the other on the same things, as many
   * @throws IllegalArgumentException if they differ in number
   */
  public static CohensKappa of(List<String> one, List<String> other) {
    if (one.size() != other.size()) {
      throw new IllegalArgumentException(
          "Invalid verdicts: "
              + one.size()
              + " of one observer, "
              + other.size()
              + " of the other");
    }
    Map<String, Integer> ofOne = new HashMap<>();
    Map<String, Integer> ofOther = new HashMap<>();
    int alike = 0;
    for (int i = 0; i < one.size(); i++) {
      ofOne.merge(one.get(i), 1, Integer::sum);
      ofOther.merge(other.get(i), 1, Integer::sum);
      alike += one.get(i).equals(other.get(i)) ? 1 : 0;
    }
    int things = one.size();
    long chance = 0;
    for (Map.Entry<String, Integer> verdict : ofOne.entrySet()) {
      chance += (long) verdict.getValue() * ofOther.getOrDefault(verdict.getKey(), 0);
    }
    long all = (long) things * things;
    return new CohensKappa(
        things,
        alike,
        chance == all ? null : (double) ((long) alike * things - chance) / (all - chance));
  }
}
