package phrasecensus.spark;

import java.io.Serializable;
import java.util.Map;
import java.util.TreeMap;

/**
 * One solo of a student, or all of a student's solos pooled, as the comparison takes it.
 *
 * @param student name
 * @param scope {@code solo} or {@code pooled}
 * @param soloId the solo; empty for pooled
 * @param date ISO date; null for pooled or when not given
 * @param phrases phrases the values rest on
 * @param columns metadata of the solo by column of table solos; pooled: those that all solos share
 * @param values statistic to value; undefined ones are missing
 * @param counts statistic to n
 */
record Student(
    String student,
    String scope,
    String soloId,
    String date,
    int phrases,
    Map<String, String> columns,
    Map<String, Double> values,
    Map<String, Integer> counts)
    implements Serializable {
  static final String SOLO = "solo";
  static final String POOLED = "pooled";

  Student {
    columns = new TreeMap<>(columns);
    values = new TreeMap<>(values);
    counts = new TreeMap<>(counts);
  }
}
