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
 * @param limits bounds on what one file may ask of the reader, by name, where they differ from the
 *     reader's defaults; the reader knows the names and says which values it takes
 */
public record StudySettings(
    String phraseRule,
    Map<String, String> phraseRuleSettings,
    boolean anticipation,
    boolean asPlayed,
    String part,
    Map<String, String> limits)
    implements Serializable {

  /** The rule used when a study names none. */
  public static final String DEFAULT_PHRASE_RULE = "breath";

  private static final String NUMBER_PREFIX = "phrase-rule.";
  private static final String LIMIT_PREFIX = "limit.";

  public StudySettings {
    phraseRuleSettings = Collections.unmodifiableMap(new TreeMap<>(phraseRuleSettings));
    limits = Collections.unmodifiableMap(new TreeMap<>(limits));
  }

  /**
   * The usual phrase rule, anticipations judged by the next chord, as written, part chosen by rule,
   * limits at their defaults.
   */
  public static StudySettings defaults() {
    return new StudySettings(DEFAULT_PHRASE_RULE, Map.of(), true, false, "", Map.of());
  }

  /** The same settings with other limits. */
  public StudySettings limitedBy(Map<String, String> other) {
    return new StudySettings(
        phraseRule, phraseRuleSettings, anticipation, asPlayed, part, other);
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
    limits.forEach((name, value) -> recorded.put(LIMIT_PREFIX + name, value));
    return recorded;
  }

  /** The settings that {@link #recorded} wrote down. */
  public static StudySettings of(Map<String, String> recorded) {
    return new StudySettings(
        recorded.getOrDefault("phrase-rule", DEFAULT_PHRASE_RULE),
        named(recorded, NUMBER_PREFIX),
        Boolean.parseBoolean(recorded.getOrDefault("anticipation", "true")),
        Boolean.parseBoolean(recorded.getOrDefault("as-played", "false")),
        recorded.getOrDefault("part", ""),
        named(recorded, LIMIT_PREFIX));
  }

  private static Map<String, String> named(Map<String, String> recorded, String prefix) {
    Map<String, String> named = new TreeMap<>();
    recorded.forEach(
        (name, value) -> {
          if (name.startsWith(prefix)) {
            named.put(name.substring(prefix.length()), value);
          }
        });
    return named;
  }
}
