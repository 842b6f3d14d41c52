package phrasecensus.tables;

import java.io.Serializable;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.TreeMap;

/**
 * The settings that the tables of reading depend on. Recorded in the manifest.
 *
 * @param phraseRule name of the rule that ends phrases
 * @param phraseRuleSettings its numbers by name where they differ from the rule's defaults
 * @param anticipation true to judge a note just before a chord change that sounds into the next
 *     chord by that chord
 * @param asPlayed true to unfold repeats and jumps; false to read every bar once, as written
 * @param part id or name of the part that is the solo; empty to choose by rule
 */
public record StudySettings(
    String phraseRule,
    Map<String, String> phraseRuleSettings,
    boolean anticipation,
    boolean asPlayed,
    String part)
    implements Serializable {

  /** The rule used when a study names none. */
  public static final String DEFAULT_PHRASE_RULE = "silence";

  private static final String NUMBER_PREFIX = "phrase-rule.";

  public StudySettings {
    phraseRuleSettings = Collections.unmodifiableMap(new TreeMap<>(phraseRuleSettings));
  }

  /** Silence rule, anticipations judged by the next chord, as written, part chosen by rule. */
  public static StudySettings defaults() {
    return new StudySettings(DEFAULT_PHRASE_RULE, Map.of(), true, false, "");
  }

  /**
   * As they are recorded, in a fixed order.
   *
   * @param numbers every number of the phrase rule, those left at their defaults included
   */
  public Map<String, String> recorded(Map<String, String> numbers) {
    Map<String, String> recorded = new LinkedHashMap<>();
    recorded.put("phrase-rule", phraseRule);
    numbers.forEach((name, value) -> recorded.put(NUMBER_PREFIX + name, value));
    recorded.put("anticipation", Boolean.toString(anticipation));
    recorded.put("as-played", Boolean.toString(asPlayed));
    recorded.put("part", part);
    return recorded;
  }

  /** The settings that {@link #recorded} wrote down. */
  public static StudySettings of(Map<String, String> recorded) {
    Map<String, String> numbers = new TreeMap<>();
    recorded.forEach(
        (name, value) -> {
          if (name.startsWith(NUMBER_PREFIX)) {
            numbers.put(name.substring(NUMBER_PREFIX.length()), value);
          }
        });
    return new StudySettings(
        recorded.getOrDefault("phrase-rule", DEFAULT_PHRASE_RULE),
        numbers,
        Boolean.parseBoolean(recorded.getOrDefault("anticipation", "true")),
        Boolean.parseBoolean(recorded.getOrDefault("as-played", "false")),
        recorded.getOrDefault("part", ""));
  }
}
