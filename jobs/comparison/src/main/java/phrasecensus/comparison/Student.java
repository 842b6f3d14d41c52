package phrasecensus.comparison;

import java.io.Serializable;
import java.time.LocalDate;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import phrasecensus.music.comparison.ComparedSolo;

/**
 * One solo of a student, or all of a student's solos pooled, as the comparison takes it.
 *
 * @param student name
 * @param scope {@code solo} or {@code pooled}
 * @param soloId the solo; empty for pooled
 * @param date null for pooled or when not given
 * @param phrases phrases the values rest on
 * @param tempo in quarter notes a minute; null for pooled or when not known
 * @param groups the solo's group by name of the grouping, where it has one; pooled: those that all
 *     solos share
 * @param twins solos of the corpus that are this student's own: the same file as one of these, or
 *     by a player of the student's name
 * @param sameFiles how many of them are the same file
 * @param values statistic to value; undefined ones are missing. Pooled: of shares that of all that
 *     is counted together, else the median of the solos
 * @param counts statistic to n
 */
public record Student(
    String student,
    String scope,
    String soloId,
    LocalDate date,
    int phrases,
    Double tempo,
    Map<String, String> groups,
    Set<String> twins,
    int sameFiles,
    Map<String, Double> values,
    Map<String, Integer> counts)
    implements Serializable {
  public static final String SOLO = "solo";
  static final String POOLED = "pooled";

  public Student {
    groups = new TreeMap<>(groups);
    twins = new TreeSet<>(twins);
    values = new TreeMap<>(values);
    counts = new TreeMap<>(counts);
  }

  /** The value of a statistic as it is compared. */
  ComparedSolo compared(String statistic) {
    return compared(statistic, "");
  }

  /**
   * The same in a group.
   *
   * @param group empty for none
   */
  ComparedSolo compared(String statistic, String group) {
    Double value = values.get(statistic);
    return new ComparedSolo(
        soloId,
        student,
        group,
        value == null ? Double.NaN : value,
        counts.getOrDefault(statistic, 0),
        phrases,
        tempo == null ? Double.NaN : tempo);
  }

  /**
   * How many phrases a value rests on, or of the things it counts if those are fewer: a share of
   * two chord changes is no better for being taken from thirty phrases.
   */
  int restsOn(String statistic) {
    return Math.min(phrases, counts.getOrDefault(statistic, 0));
  }
}
