package phrasecensus.spark;

import java.io.Serializable;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * One solo of a student, or all of a student's solos pooled, as the comparison takes it.
 *
 * @param student name
 * @param scope {@code solo} or {@code pooled}
 * @param soloId the solo; empty for pooled
 * @param date ISO date; null for pooled or when not given
 * @param phrases phrases the values rest on
 * @param groups the solo's group by name of the grouping, where it has one; pooled: those that all
 *     solos share
 * @param twins solos of the corpus that are the same file as one of this student's
 * @param values statistic to value; undefined ones are missing
 * @param counts statistic to n
 */
record Student(
    String student,
    String scope,
    String soloId,
    String date,
    int phrases,
    Map<String, String> groups,
    Set<String> twins,
    Map<String, Double> values,
    Map<String, Integer> counts)
    implements Serializable {
  static final String SOLO = "solo";
  static final String POOLED = "pooled";

  Student {
    groups = new TreeMap<>(groups);
    twins = new TreeSet<>(twins);
    values = new TreeMap<>(values);
    counts = new TreeMap<>(counts);
  }

  /**
   * How many phrases a value rests on, or of the things it counts if those are fewer: a share of two
   * chord changes is no better for being taken from thirty phrases.
   */
  int restsOn(String statistic) {
    return Math.min(phrases, counts.getOrDefault(statistic, 0));
  }
}
