package phrasecensus.report.rows;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import phrasecensus.tables.row.AnswerScope;

/**
 * A student and what the study says of the student's solos.
 *
 * @param name as the study has it
 * @param solos by date, those without a date last, then by name of file
 * @param comparisons in the order of the table
 * @param trends in the order of the table; empty in a study without it
 * @param exemplars in the order of the table; empty in a study without it
 * @param mixtures in the order of the table; empty in a study without it
 * @param answers by place of the question; empty in a study without the table
 */
public record Student(
    String name,
    List<StudentSolo> solos,
    List<Comparison> comparisons,
    List<Trend> trends,
    List<Exemplar> exemplars,
    List<Mixture> mixtures,
    List<Answer> answers) {
  public Student {
    solos = List.copyOf(solos);
    comparisons = List.copyOf(comparisons);
    trends = List.copyOf(trends);
    exemplars = List.copyOf(exemplars);
    mixtures = List.copyOf(mixtures);
    answers = answers.stream().sorted(Comparator.comparing(Answer::place)).toList();
  }

  /** The answers of one solo, in the order of the questions. */
  public List<Answer> answers(StudentSolo solo) {
    return answers.stream()
        .filter(answer -> answer.scope() == AnswerScope.SOLO)
        .filter(answer -> answer.soloId().equals(solo.facts().soloId()))
        .toList();
  }

  /** The answers of all solos together, in the order of the questions. */
  public List<Answer> answersTogether() {
    return answers.stream().filter(answer -> answer.scope() == AnswerScope.ALL).toList();
  }

  /** The solos as lessons follow: those without a date first, then by date and file. */
  public List<StudentSolo> inOrderOfLessons() {
    return solos.stream()
        .sorted(
            Comparator.comparing(
                    (StudentSolo solo) -> solo.facts().date(),
                    Comparator.nullsFirst(Comparator.<String>naturalOrder()))
                .thenComparing(solo -> solo.facts().file()))
        .toList();
  }

  /**
   * True for the scope that stands for all solos together. A study pools from two solos on; the
   * only solo of a student stands for itself.
   */
  private boolean isTogether(boolean pooled) {
    return pooled || solos.size() == 1 && comparisons.stream().noneMatch(Comparison::pooled);
  }

  /** The comparisons of all solos together. */
  public List<Comparison> together() {
    return comparisons.stream().filter(c -> isTogether(c.pooled())).toList();
  }

  /** Phrases that show a departure of the pooled values, or what is usual instead, best first. */
  public List<Exemplar> exemplars(Group group, String statistic, boolean ofCorpus) {
    return exemplars.stream()
        .filter(e -> isTogether(e.pooled()) && e.ofCorpus() == ofCorpus && e.group().equals(group))
        .filter(e -> e.statistic().equals(statistic))
        .sorted(Comparator.comparing(Exemplar::rank))
        .toList();
  }

  /** The shares of a mix of all solos together beside a group, the weightiest first. */
  public List<Mixture> mixture(Group group, String mix) {
    return mixtures.stream()
        .filter(
            m -> isTogether(m.soloId().isEmpty()) && m.group().equals(group) && m.mix().equals(mix))
        .sorted(Comparator.comparing(Mixture::rank))
        .toList();
  }

  /** How a statistic moved over the dates, held against a group. */
  public Optional<Trend> trend(Group group, String statistic) {
    return trends.stream()
        .filter(t -> t.group().equals(group) && t.statistic().equals(statistic))
        .findFirst();
  }

  /**
   * A comparison with the group that the study holds the student against first; empty in a study
   * that names none.
   *
   * @param soloId one solo; empty for all together
   */
  public Optional<Comparison> reference(String soloId) {
    return (soloId.isEmpty() ? together() : comparisons)
        .stream()
            .filter(Comparison::reference)
            .filter(c -> soloId.isEmpty() || c.soloId().equals(soloId))
            .findFirst();
  }

  /** The comparison of the student's pooled value with a group. */
  public Optional<Comparison> pooled(Group group, String statistic) {
    return together().stream()
        .filter(c -> c.group().equals(group) && c.statistic().equals(statistic))
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
