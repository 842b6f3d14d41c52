package phrasecensus.tables;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * What a study asks of its students, as its file says it. For each answer the narrowest statement
 * that names it holds: the student's own, else the level's, else that for all, else the built-in
 * set.
 *
 * @param set the built-in set that holds where nothing else is said: {@link #FIRST_STEPS} or {@link
 *     #NONE}
 * @param order answers in the order in which the first one not met is looked for; those not named
 *     follow in their usual order
 * @param levelColumn metadata column that names a student's level, taken from the newest solo
 * @param all for every student
 * @param levels by the level's name
 * @param students by the student's name
 */
@JsonPropertyOrder({"set", "order", "levelColumn", "all", "levels", "students"})
public record AimsDefinition(
    String set,
    List<String> order,
    String levelColumn,
    Group all,
    Map<String, Group> levels,
    Map<String, Group> students) {
  /** The built-in set that holds unless the study says otherwise. */
  public static final String FIRST_STEPS = "first-steps";

  /** No set. */
  public static final String NONE = "none";

  /** Names of sets. */
  public static final List<String> SETS = List.of(FIRST_STEPS, NONE);

  /** Answers that an aim can belong to. */
  public static final List<String> ANSWERS =
      List.of("tonal_centre", "landings", "movement", "phrases", "own");

  /** What can be said to be amiss where an aim is not met. */
  public static final List<String> FINDINGS =
      List.of("outside_key", "weak_landings", "long_notes", "no_breath", "fragments", "own");

  /** The column that names a level unless the study says otherwise. */
  public static final String LEVEL_COLUMN = "level";

  /** The aims of a study that says nothing about them. */
  public static final AimsDefinition DEFAULT =
      new AimsDefinition(FIRST_STEPS, List.of(), LEVEL_COLUMN, Group.NOTHING, Map.of(), Map.of());

  private static final ObjectMapper JSON = new ObjectMapper();

  public AimsDefinition {
    order = List.copyOf(order);
    levels = Collections.unmodifiableMap(new TreeMap<>(levels));
    students = Collections.unmodifiableMap(new TreeMap<>(students));
  }

  /**
   * What is asked of some students.
   *
   * @param set a built-in set that takes the place of the wider statement; null to keep that
   * @param aims in order; for the answers that they name they take the place of every wider aim
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  public record Group(String set, List<Stated> aims) {
    /** Nothing beyond the wider statement. */
    public static final Group NOTHING = new Group(null, List.of());

    public Group {
      aims = List.copyOf(aims);
    }
  }

  /**
   * One aim.
   *
   * @param answer one of {@link #ANSWERS}
   * @param statistic key in the catalogue
   * @param low least value that meets it; null for none
   * @param high largest value that meets it; null for none
   * @param least how many of what the statistic counts it takes to tell; null for the usual number
   * @param finding one of {@link #FINDINGS}; null for the one that goes with answer and statistic
   * @param words the teacher's own words for it; empty for none
   */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  public record Stated(
      String answer,
      String statistic,
      Double low,
      Double high,
      Integer least,
      String finding,
      String words) {}

  /** As text for the manifest; {@link #parse} reads it. */
  public String text() {
    try {
      return JSON.writeValueAsString(this);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("Cannot write aims down", e);
    }
  }

  /** What {@link #text} wrote; the usual aims for null, where a study was made without any. */
  public static AimsDefinition parse(String text) {
    if (text == null) {
      return DEFAULT;
    }
    try {
      return JSON.readValue(text, AimsDefinition.class);
    } catch (JsonProcessingException e) {
      throw new InputException(
          "Cannot read the aims in the study's manifest: "
              + e.getOriginalMessage()
              + ". Run 'phrase-census study' again.",
          e);
    }
  }
}
