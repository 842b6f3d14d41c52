package phrasecensus.report.lesson;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import phrasecensus.report.rows.Answer;

/**
 * What a lesson is about.
 *
 * @param finding a word of the column {@code finding} of {@code answers}: what the task is for
 * @param question the question that it belongs to; empty where nothing is amiss
 * @param chosen true where the teacher chose it
 */
public record Lead(String finding, String question, boolean chosen) {
  /** Nothing is amiss. */
  public static final String NONE = "none";

  /** There is too little to tell. */
  public static final String NOT_ENOUGH = "not_enough";

  private static final Map<String, String> FINDING_OF_QUESTION =
      Map.of(
          "tonal_centre", "outside_key",
          "landings", "weak_landings",
          "movement", "long_notes",
          "phrases", "no_breath",
          "own", "own");

  private static final Map<String, String> QUESTION_OF_FINDING =
      Map.of(
          "outside_key", "tonal_centre",
          "weak_landings", "landings",
          "long_notes", "movement",
          "no_breath", "phrases",
          "fragments", "phrases",
          "own", "own");

  /**
   * What a solo's answers lead with, unless the teacher chose another thing.
   *
   * @param answers of the solo
   * @param workOn what the metadata say to work on; null or empty for nothing
   */
  public static Lead of(List<Answer> answers, String workOn) {
    Optional<String> chosen = chosen(workOn);
    if (chosen.isPresent()) {
      String word = chosen.get();
      if (QUESTION_OF_FINDING.containsKey(word) && !word.equals("own")) {
        return new Lead(word, QUESTION_OF_FINDING.get(word), true);
      }
      String finding =
          answers.stream()
              .filter(answer -> answer.question().equals(word) && answer.isNotYet())
              .map(Answer::finding)
              .findFirst()
              .orElse(FINDING_OF_QUESTION.get(word));
      return new Lead(finding, word, true);
    }
    return answers.stream()
        .filter(Answer::first)
        .findFirst()
        .map(answer -> new Lead(answer.finding(), answer.question(), false))
        .orElse(new Lead(NONE, "", false));
  }

  /** True for what a teacher may choose to work on: a question or a finding, or nothing. */
  public static boolean isKnown(String workOn) {
    return workOn == null || workOn.isBlank() || chosen(workOn).isPresent();
  }

  private static Optional<String> chosen(String workOn) {
    if (workOn == null || workOn.isBlank()) {
      return Optional.empty();
    }
    String word = workOn.strip().toLowerCase(Locale.ROOT).replaceAll("[\\s-]+", "_");
    return FINDING_OF_QUESTION.containsKey(word) || QUESTION_OF_FINDING.containsKey(word)
        ? Optional.of(word)
        : Optional.empty();
  }
}
