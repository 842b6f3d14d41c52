package phrasecensus.music.aim;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import phrasecensus.music.statistic.StatisticValue;

/** Holds the statistics of a solo against what is asked of it. */
public final class Answers {
  /**
   * Bars of playing to one stretch from which on a line hardly breathes, so that its landings
   * cannot be told: phrases of four bars are usual, and a line that runs on for more than six bars
   * again and again comes to rest by accident (common practice, no source).
   */
  public static final double SELDOM_BREATHES_BARS = 6;

  /** Statistic whose n is the number of stretches of the line between breaths. */
  public static final String STRETCHES = "longest_stretch_bars";

  /** Statistic whose n is the number of bars of playing. */
  public static final String BARS = "unbroken_time_share";

  private Answers() {}

  /**
   * One answer a question, in the order of the set; for {@link Question#OWN} only where it has an
   * aim.
   *
   * <p>An aim can be told when its statistic has a value that counts at least as many things as the
   * aim asks for, in a solo of no fewer notes than {@link Counted#NOTES} needs; one on landings
   * only where the line breathes at least once in {@value #SELDOM_BREATHES_BARS} bars of playing.
   * Of the aims of a question the first that is not met decides; where none is, the first that is
   * met; where none can be told, the first of all. The lesson starts with the first answer that is
   * not met; where there is none and nothing is met, with the first that cannot be told; else with
   * none.
   *
   * @param set what is asked
   * @param notes how many notes there are
   * @param values the statistics by key; null for one that was not computed
   */
  public static List<Answer> of(AimSet set, int notes, Function<String, StatisticValue> values) {
    List<Answer> answers = new ArrayList<>();
    for (Question question : set.order()) {
      List<Aim> aims = set.of(question);
      if (!aims.isEmpty()) {
        answers.add(answer(aims, notes, values));
      } else if (question != Question.OWN) {
        answers.add(
            notes == 0
                ? new Answer(
                    question,
                    Verdict.NOT_ENOUGH,
                    Finding.NOT_ENOUGH,
                    null,
                    null,
                    0,
                    Shortage.NO_NOTES,
                    false)
                : new Answer(question, Verdict.NO_AIM, Finding.NONE, null, null, 0, null, false));
      }
    }
    first(answers).ifPresent(first -> answers.set(answers.indexOf(first), first.asFirst()));
    return List.copyOf(answers);
  }

  private static Optional<Answer> first(List<Answer> answers) {
    Optional<Answer> notYet = firstOf(answers, Verdict.NOT_YET);
    if (notYet.isPresent() || firstOf(answers, Verdict.MET).isPresent()) {
      return notYet;
    }
    return firstOf(answers, Verdict.NOT_ENOUGH);
  }

  private static Optional<Answer> firstOf(List<Answer> answers, Verdict verdict) {
    return answers.stream().filter(answer -> answer.verdict() == verdict).findFirst();
  }

  private static Answer answer(List<Aim> aims, int notes, Function<String, StatisticValue> values) {
    Answer met = null;
    Answer untold = null;
    for (Aim aim : aims) {
      Answer answer = answer(aim, notes, values);
      switch (answer.verdict()) {
        case NOT_YET -> {
          return answer;
        }
        case MET -> met = met == null ? answer : met;
        case NOT_ENOUGH, NO_AIM -> untold = untold == null ? answer : untold;
      }
    }
    return met == null ? untold : met;
  }

  private static Answer answer(Aim aim, int notes, Function<String, StatisticValue> values) {
    StatisticValue found = values.apply(aim.statistic());
    Double value = found == null ? null : found.value();
    int n = found == null ? 0 : found.n();
    Shortage shortage = shortage(aim, notes, value, n, values);
    if (shortage != null) {
      return new Answer(
          aim.question(), Verdict.NOT_ENOUGH, Finding.NOT_ENOUGH, aim, value, n, shortage, false);
    }
    boolean met = aim.isMetBy(value);
    return new Answer(
        aim.question(),
        met ? Verdict.MET : Verdict.NOT_YET,
        aim.finding(value),
        aim,
        value,
        n,
        null,
        false);
  }

  /** Why an aim cannot be told; null when it can. */
  private static Shortage shortage(
      Aim aim, int notes, Double value, int n, Function<String, StatisticValue> values) {
    if (notes == 0) {
      return Shortage.NO_NOTES;
    }
    if (notes < Counted.NOTES.least() && aim.least() > 1) {
      return Shortage.TOO_SHORT;
    }
    if (aim.question() == Question.LANDINGS && seldomBreathes(values)) {
      return Shortage.SELDOM_BREATHES;
    }
    if (value != null) {
      return n < aim.least() ? Shortage.TOO_FEW : null;
    }
    return switch (aim.counted()) {
      case BARS, STRETCHES -> Shortage.NO_METRE;
      case NOTES ->
          aim.question() == Question.TONAL_CENTRE ? Shortage.NO_CENTRE : Shortage.NO_VALUE;
      case LANDINGS, PHRASES, CHANGES, INTERVALS, GAPS, WINDOWS ->
          n < aim.least() ? Shortage.TOO_FEW : Shortage.NO_VALUE;
    };
  }

  private static boolean seldomBreathes(Function<String, StatisticValue> values) {
    StatisticValue stretches = values.apply(STRETCHES);
    StatisticValue bars = values.apply(BARS);
    return stretches != null
        && bars != null
        && bars.value() != null
        && bars.n() >= SELDOM_BREATHES_BARS
        && stretches.n() * SELDOM_BREATHES_BARS < bars.n();
  }
}
