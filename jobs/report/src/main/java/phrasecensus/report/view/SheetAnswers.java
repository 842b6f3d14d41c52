package phrasecensus.report.view;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import phrasecensus.report.lesson.LessonLine;
import phrasecensus.report.picture.AnswerPicture;
import phrasecensus.report.picture.Picture;
import phrasecensus.report.rows.Answer;
import phrasecensus.report.wording.LessonWording;
import phrasecensus.report.wording.Wording;

/** The answers of one solo, under the questions that they belong to. */
public final class SheetAnswers {
  private static final Map<String, String> FACETS =
      Map.of(
          "tonal_centre", "harmony",
          "landings", "harmony",
          "movement", "movement",
          "phrases", "phrasing");

  private SheetAnswers() {}

  /**
   * A question with its answers.
   *
   * @param heading the question; for an aim of the teacher's own its words
   * @param own true for a question of the teacher's own, whose words are not ours
   */
  public record Asked(String heading, boolean own, List<Told> answers) {}

  /**
   * An answer.
   *
   * @param label what it is about
   * @param sentence one or two sentences
   * @param picture null without one
   */
  public record Told(String label, String sentence, Picture picture) {}

  /**
   * The questions in the usual order of the page, whatever the order of the aims.
   *
   * @param id start of the ids of pictures
   */
  static List<Asked> of(String id, List<Answer> answers, LessonLine line, LessonWording wording) {
    Map<String, List<Told>> byQuestion = new LinkedHashMap<>();
    for (String question : List.of("tonal_centre", "landings", "movement", "phrases", "own")) {
      for (Answer answer : answers) {
        if (answer.question().equals(question)) {
          String heading =
              question.equals("own")
                  ? wording.heading(answer)
                  : Wording.question(FACETS.get(question));
          List<Told> told = byQuestion.computeIfAbsent(heading, any -> new ArrayList<>());
          String sentence = wording.answer(answer, line);
          // One question is not told the same twice: a file without notes has nothing to tell.
          if (told.stream().noneMatch(each -> each.sentence().equals(sentence))) {
            told.add(
                new Told(
                    question.equals("own") ? "" : wording.heading(answer),
                    sentence,
                    picture(id + "-" + question.replace('_', '-'), answer, line, wording)));
          }
        }
      }
    }
    List<Asked> asked = new ArrayList<>();
    byQuestion.forEach(
        (heading, told) ->
            asked.add(new Asked(heading, told.get(0).label().isEmpty(), List.copyOf(told))));
    return List.copyOf(asked);
  }

  private static Picture picture(String id, Answer answer, LessonLine line, LessonWording wording) {
    boolean phrases = answer.question().equals("phrases");
    if (line.solo().notes().isEmpty() || line.solo().bars().isEmpty()) {
      return null;
    }
    if (phrases) {
      return AnswerPicture.breaths(id, line);
    }
    boolean share =
        !answer.isUntold()
            && answer.value() != null
            && answer.n() > 0
            && List.of("in_key_share", "resting_chord_tone_share", "eighth_or_shorter_share")
                .contains(String.valueOf(answer.aim()));
    return share
        ? AnswerPicture.share(
            id,
            wording.heading(answer),
            answer.question().equals("landings") ? "diamond" : "circle",
            answer.value(),
            answer.n())
        : null;
  }
}
