package phrasecensus.comparison;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import phrasecensus.music.aim.Aim;
import phrasecensus.music.aim.AimSet;
import phrasecensus.music.aim.Counted;
import phrasecensus.music.aim.Finding;
import phrasecensus.music.aim.Findings;
import phrasecensus.music.aim.FirstSteps;
import phrasecensus.music.aim.Question;
import phrasecensus.tables.AimsDefinition;
import phrasecensus.tables.StatisticsCatalogue;

/**
 * What is asked of one student: of each question what is stated most narrowly.
 *
 * @param aims in the order of questions
 * @param order of the questions
 */
record StudentAims(List<Placed> aims, List<Question> order) {
  /**
   * An aim and whose it is.
   *
   * @param statedFor {@code set}, {@code all}, {@code level} or {@code student}
   */
  record Placed(Aim aim, String statedFor) {}

  /**
   * @param student name
   * @param level as the metadata say; null for none
   */
  static StudentAims of(AimsDefinition definition, String student, String level) {
    List<Placed> aims = new ArrayList<>(set(definition.set()));
    apply(definition.all(), "all", aims);
    if (level != null && definition.levels().containsKey(level)) {
      apply(definition.levels().get(level), "level", aims);
    }
    if (definition.students().containsKey(student)) {
      apply(definition.students().get(student), "student", aims);
    }
    List<Question> order =
        new AimSet(List.of(), definition.order().stream().map(StudentAims::question).toList())
            .order();
    List<Placed> sorted = new ArrayList<>();
    for (Question question : order) {
      aims.stream().filter(each -> each.aim().question() == question).forEach(sorted::add);
    }
    return new StudentAims(List.copyOf(sorted), order);
  }

  AimSet set() {
    return new AimSet(aims.stream().map(Placed::aim).toList(), order);
  }

  private static List<Placed> set(String name) {
    return name.equals(FirstSteps.NAME)
        ? FirstSteps.AIMS.aims().stream().map(aim -> new Placed(aim, "set")).toList()
        : List.of();
  }

  private static void apply(AimsDefinition.Group group, String statedFor, List<Placed> aims) {
    if (group.set() != null) {
      aims.clear();
      aims.addAll(set(group.set()));
    }
    Set<Question> named =
        group.aims().stream().map(each -> question(each.answer())).collect(Collectors.toSet());
    aims.removeIf(each -> named.contains(each.aim().question()));
    group.aims().forEach(stated -> aims.add(new Placed(aim(stated), statedFor)));
  }

  private static Aim aim(AimsDefinition.Stated stated) {
    Question question = question(stated.answer());
    Counted counted =
        Counted.of(StatisticsCatalogue.builtIn().named(stated.statistic()).orElseThrow().counted());
    return new Aim(
        question,
        stated.statistic(),
        stated.low(),
        stated.high(),
        counted,
        stated.least() == null ? counted.least() : stated.least(),
        finding(stated, question, true),
        finding(stated, question, false),
        stated.words());
  }

  private static Finding finding(AimsDefinition.Stated stated, Question question, boolean below) {
    return stated.finding() == null
        ? Findings.of(question, stated.statistic(), below)
        : Finding.valueOf(stated.finding().toUpperCase(Locale.ROOT));
  }

  private static Question question(String answer) {
    return Question.valueOf(answer.toUpperCase(Locale.ROOT));
  }
}
