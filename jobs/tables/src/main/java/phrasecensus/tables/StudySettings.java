package phrasecensus.tables;

import java.io.Serializable;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
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
 * @param evenEighths true to read a triplet quarter with its eighth, and a dotted eighth with its
 *     sixteenth, as two even eighths: swing that a transcriber wrote out
 * @param keepSlashNoteheads true to read notes with slashes as noteheads as notes of the line;
 *     false to leave them out
 * @param part id or name of the part that is the solo; empty to choose by rule
 * @param sensitivity further phrase rules under which statistics are made, to see how far they
 *     move: each a rule's name and, where they differ from the usual, its numbers, as in {@code
 *     silence minimum-beats=1}
 * @param limits bounds on what one file may ask of the reader, by name, where they differ from the
 *     reader's defaults; the reader knows the names and says which values it takes
 * @param key how a metadata column {@code key} is meant, one of {@link #KEY_PITCHES}: as the player
 *     reads it or as it sounds; empty to take it of students' files alone, whichever of the two
 *     agrees with the file's signature
 */
public record StudySettings(
    String phraseRule,
    Map<String, String> phraseRuleSettings,
    boolean anticipation,
    boolean asPlayed,
    boolean evenEighths,
    boolean keepSlashNoteheads,
    String part,
    List<String> sensitivity,
    Map<String, String> limits,
    String key)
    implements Serializable {

  /** The rule used when a study names none. */
  public static final String DEFAULT_PHRASE_RULE = "by-material";

  /** Key of the record of which scores of the corpus a study is about, where that is not all. */
  public static final String ONLY = "only";

  /** The same of the students' solos. */
  public static final String STUDENT_ONLY = "student-only";

  /** Key of the record of what a study asks of its students, where that is not usual. */
  public static final String AIMS = "aims";

  /** Keys of records that can hold students' names. */
  public static final List<String> NAMING_STUDENTS = List.of(AIMS, STUDENT_ONLY);

  /** What outputs record as the phrase rule when the study gives phrase marks. */
  public static final String GIVEN_PHRASES = "given";

  private static final String EVEN_EIGHTHS = "even-eighths";
  private static final String KEEP_SLASH_NOTEHEADS = "keep-slash-noteheads";
  private static final String RULE = "phrase-rule";
  private static final String RULE_WITHOUT_MARKS = "phrase-rule-without-marks";
  private static final String SENSITIVITY = "sensitivity";
  private static final String BETWEEN_RULES = ", ";
  private static final String NUMBER_PREFIX = "phrase-rule.";
  private static final String LIMIT_PREFIX = "limit.";

  public StudySettings {
    phraseRuleSettings = Collections.unmodifiableMap(new TreeMap<>(phraseRuleSettings));
    sensitivity = List.copyOf(sensitivity);
    limits = Collections.unmodifiableMap(new TreeMap<>(limits));
  }

  /** How a stated key can be meant. */
  public static final List<String> KEY_PITCHES = List.of("written", "sounding");

  private static final String KEY = "key";

  /** Settings that say nothing about stated keys. */
  public StudySettings(
      String phraseRule,
      Map<String, String> phraseRuleSettings,
      boolean anticipation,
      boolean asPlayed,
      boolean evenEighths,
      boolean keepSlashNoteheads,
      String part,
      List<String> sensitivity,
      Map<String, String> limits) {
    this(
        phraseRule,
        phraseRuleSettings,
        anticipation,
        asPlayed,
        evenEighths,
        keepSlashNoteheads,
        part,
        sensitivity,
        limits,
        "");
  }

  /** Settings with the notes' lengths as written. */
  public StudySettings(
      String phraseRule,
      Map<String, String> phraseRuleSettings,
      boolean anticipation,
      boolean asPlayed,
      String part,
      List<String> sensitivity,
      Map<String, String> limits) {
    this(
        phraseRule,
        phraseRuleSettings,
        anticipation,
        asPlayed,
        false,
        false,
        part,
        sensitivity,
        limits);
  }

  /**
   * The usual phrase rule, anticipations judged by the next chord, as written, part chosen by rule,
   * limits at their defaults.
   */
  public static StudySettings defaults() {
    return new StudySettings(DEFAULT_PHRASE_RULE, Map.of(), true, false, "", List.of(), Map.of());
  }

  /** The same settings with other limits. */
  public StudySettings limitedBy(Map<String, String> other) {
    return new StudySettings(
        phraseRule,
        phraseRuleSettings,
        anticipation,
        asPlayed,
        evenEighths,
        keepSlashNoteheads,
        part,
        sensitivity,
        other,
        key);
  }

  /** The same settings with other rules to see how far statistics move. */
  public StudySettings movedBy(List<String> rules) {
    return new StudySettings(
        phraseRule,
        phraseRuleSettings,
        anticipation,
        asPlayed,
        evenEighths,
        keepSlashNoteheads,
        part,
        rules,
        limits,
        key);
  }

  /**
   * As they are recorded, in a fixed order.
   *
   * @param numbers every number of the phrase rule, those left at their defaults included
   */
  public Map<String, String> recorded(Map<String, String> numbers) {
    Map<String, String> recorded = new LinkedHashMap<>();
    recorded.put(RULE, phraseRule);
    numbers.forEach((name, value) -> recorded.put(NUMBER_PREFIX + name, value));
    recorded.put("anticipation", Boolean.toString(anticipation));
    recorded.put("as-played", Boolean.toString(asPlayed));
    if (evenEighths) {
      recorded.put(EVEN_EIGHTHS, "true");
    }
    if (keepSlashNoteheads) {
      recorded.put(KEEP_SLASH_NOTEHEADS, "true");
    }
    recorded.put("part", part);
    if (!sensitivity.isEmpty()) {
      recorded.put(SENSITIVITY, String.join(BETWEEN_RULES, sensitivity));
    }
    limits.forEach((name, value) -> recorded.put(LIMIT_PREFIX + name, value));
    if (!key.isEmpty()) {
      recorded.put(KEY, key);
    }
    return recorded;
  }

  /**
   * As they are recorded for a study that gives phrase marks; the phrase rule finds phrases only
   * where there are none.
   *
   * @param marksFile name of the file with the marks, without folder
   * @param sha256 its checksum
   */
  public Map<String, String> recorded(
      Map<String, String> numbers, String marksFile, String sha256) {
    Map<String, String> recorded = new LinkedHashMap<>();
    recorded.put(RULE, GIVEN_PHRASES);
    recorded.put("phrase-marks", marksFile);
    recorded.put("phrase-marks-sha256", sha256);
    recorded.put(RULE_WITHOUT_MARKS, phraseRule);
    recorded(numbers).forEach(recorded::putIfAbsent);
    return recorded;
  }

  /** True if recorded settings are those of a study that gives phrase marks. */
  public static boolean recordsGivenPhrases(Map<String, String> recorded) {
    return recorded.containsKey(RULE_WITHOUT_MARKS);
  }

  /** The settings that {@link #recorded} wrote down; marks are no part of them. */
  public static StudySettings of(Map<String, String> recorded) {
    String sensitivity = recorded.getOrDefault(SENSITIVITY, "");
    return new StudySettings(
        recorded.getOrDefault(RULE_WITHOUT_MARKS, recorded.getOrDefault(RULE, DEFAULT_PHRASE_RULE)),
        named(recorded, NUMBER_PREFIX),
        Boolean.parseBoolean(recorded.getOrDefault("anticipation", "true")),
        Boolean.parseBoolean(recorded.getOrDefault("as-played", "false")),
        Boolean.parseBoolean(recorded.get(EVEN_EIGHTHS)),
        Boolean.parseBoolean(recorded.get(KEEP_SLASH_NOTEHEADS)),
        recorded.getOrDefault("part", ""),
        sensitivity.isEmpty() ? List.of() : List.of(sensitivity.split(BETWEEN_RULES)),
        named(recorded, LIMIT_PREFIX),
        recorded.getOrDefault(KEY, ""));
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
