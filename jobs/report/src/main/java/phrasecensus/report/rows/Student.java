package phrasecensus.report.rows;

import java.util.List;
import java.util.Optional;

/**
 * A student and what the study says of the student's solos.
 *
 * @param name as the study has it
 * @param solos by date, those without a date last, then by name of file
 * @param comparisons in the order of the table
 */
public record Student(String name, List<StudentSolo> solos, List<Comparison> comparisons) {
  public Student {
    solos = List.copyOf(solos);
    comparisons = List.copyOf(comparisons);
  }

  /** The comparison of the student's pooled value with a group. */
  public Optional<Comparison> pooled(Group group, String statistic) {
    return comparisons.stream()
        .filter(c -> c.pooled() && c.group().equals(group) && c.statistic().equals(statistic))
        .findFirst();
  }

  /** The last solo that has a date, else the last one; empty without solos. */
  public Optional<StudentSolo> latest() {
    for (int i = solos.size() - 1; i >= 0; i--) {
      if (solos.get(i).facts().date() != null) {
        return Optional.of(solos.get(i));
      }
    }
    return solos.isEmpty() ? Optional.empty() : Optional.of(solos.get(solos.size() - 1));
  }

  /** Phrases in all solos. */
  public int phrases() {
    return solos.stream().mapToInt(solo -> solo.facts().phrases()).sum();
  }
}
