package phrasecensus.music.aim;

import java.util.ArrayList;
import java.util.List;

/**
 * All that is asked of a student.
 *
 * @param aims in order; of several that serve one question the first not met decides
 * @param order of the questions: the first not met in it is what the lesson starts with
 */
public record AimSet(List<Aim> aims, List<Question> order) {
  /** Nothing is asked. */
  public static final AimSet NONE = new AimSet(List.of(), Question.USUAL_ORDER);

  /** Questions that the order does not name follow in their usual order. */
  public AimSet {
    aims = List.copyOf(aims);
    List<Question> all = new ArrayList<>(order);
    Question.USUAL_ORDER.stream().filter(question -> !all.contains(question)).forEach(all::add);
    order = List.copyOf(all);
  }

  /** The aims that serve a question, in order. */
  public List<Aim> of(Question question) {
    return aims.stream().filter(aim -> aim.question() == question).toList();
  }
}
