package phrasecensus.report.lesson;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.report.rows.Answer;

/**
 * Which way an answer goes over the dates. Plain counting, for a sentence: of the pairs of solos
 * more than a quarter go that way on balance, and the later half differs from the earlier one by
 * more than twice what chance would make of shares of so many things (common practice, no source).
 */
public enum Course {
  RISE,
  FALL,
  /** No clear way. */
  OPEN;

  /** Fewer solos have no course. */
  public static final int FEWEST = 3;

  private static final double STANDARD_ERRORS = 2;
  private static final double ON_BALANCE = 0.25;

  /** The least difference of two shares that a sheet speaks of. */
  private static final double LEAST_CHANGE = 0.1;

  /**
   * The course of one question.
   *
   * @param answers oldest first; those without a value are passed over
   */
  public static Course of(List<Answer> answers) {
    List<Answer> told = new ArrayList<>();
    for (Answer answer : answers) {
      boolean same =
          answer.aim() != null && answer.aim().equals(answers.get(answers.size() - 1).aim());
      if (same && answer.value() != null && answer.n() > 0) {
        told.add(answer);
      }
    }
    if (told.size() < FEWEST) {
      return OPEN;
    }
    int balance = 0;
    int pairs = 0;
    for (int i = 0; i < told.size(); i++) {
      for (int k = i + 1; k < told.size(); k++) {
        balance += Double.compare(told.get(k).value(), told.get(i).value());
        pairs++;
      }
    }
    int half = told.size() / 2;
    Answer early = together(told.subList(0, half));
    Answer late = together(told.subList(told.size() - half, told.size()));
    if (Math.abs(balance) <= ON_BALANCE * pairs || !isClear(early, late)) {
      return OPEN;
    }
    boolean up = late.value() > early.value();
    return up == balance > 0 ? up ? RISE : FALL : OPEN;
  }

  /**
   * True where two shares differ by more than chance would make of them, and by enough to speak of.
   * Anything but a share is never clear: it does not say how sure it is.
   */
  public static boolean isClear(Answer before, Answer now) {
    if (!isShare(before)
        || !isShare(now)
        || Math.abs(now.value() - before.value()) < LEAST_CHANGE) {
      return false;
    }
    double n1 = before.n();
    double n2 = now.n();
    double pooled = (before.value() * n1 + now.value() * n2) / (n1 + n2);
    double error = Math.sqrt(pooled * (1 - pooled) * (1 / n1 + 1 / n2));
    return Math.abs(now.value() - before.value()) > STANDARD_ERRORS * error;
  }

  private static boolean isShare(Answer answer) {
    return answer.value() != null
        && answer.n() > 0
        && answer.value() >= 0
        && answer.value() <= 1
        && answer.counted() != null;
  }

  private static Answer together(List<Answer> answers) {
    double sum = 0;
    int n = 0;
    for (Answer answer : answers) {
      sum += answer.value() * answer.n();
      n += answer.n();
    }
    Answer last = answers.get(answers.size() - 1);
    return new Answer(
        last.scope(),
        last.soloId(),
        last.question(),
        last.place(),
        last.verdict(),
        last.finding(),
        last.aim(),
        sum / n,
        last.low(),
        last.high(),
        last.counted(),
        n,
        last.shortage(),
        last.words(),
        last.first());
  }
}
