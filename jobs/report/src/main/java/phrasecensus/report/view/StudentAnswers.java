package phrasecensus.report.view;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.report.lesson.Course;
import phrasecensus.report.lesson.LessonLine;
import phrasecensus.report.rows.Answer;
import phrasecensus.report.rows.Student;
import phrasecensus.report.rows.StudentSolo;
import phrasecensus.report.wording.LessonWording;
import phrasecensus.report.wording.Text;

/**
 * The part of a student's page that opens it: the same answers as on the lesson sheet, and how each
 * went over the dates.
 *
 * @param newest title and date of the newest solo
 * @param questions how it stands
 * @param courses how each answer went, oldest first, a sentence or two each; empty with fewer than
 *     two dated solos
 * @param sheet the lesson sheet
 * @param settled true where no aim is unmet, in the newest solo or in all together: only then does
 *     the page make offers of its own
 */
public record StudentAnswers(
    String newest,
    List<SheetAnswers.Asked> questions,
    List<String> courses,
    Shell.Link sheet,
    boolean settled) {

  /** Null for a student without answers. */
  static StudentAnswers of(PageSource source, Student student) {
    if (student.answers().isEmpty() || student.solos().isEmpty()) {
      return null;
    }
    LessonWording wording = new LessonWording(source.catalogue(), source.numbers());
    List<StudentSolo> lessons = student.inOrderOfLessons();
    StudentSolo newest = lessons.get(lessons.size() - 1);
    List<Answer> answers = student.answers(newest);
    List<Answer> all = new ArrayList<>(answers);
    all.addAll(student.answersTogether());
    return new StudentAnswers(
        source.names().solo(student, student.solos().indexOf(newest)),
        SheetAnswers.of("answer", answers, LessonLine.of(newest.line()), wording),
        courses(student, lessons, answers, wording),
        new Shell.Link(source.names().sheet(student), Text.of("lesson.sheet")),
        all.stream().noneMatch(Answer::isNotYet));
  }

  private static List<String> courses(
      Student student, List<StudentSolo> lessons, List<Answer> newest, LessonWording wording) {
    List<String> courses = new ArrayList<>();
    for (Answer last : newest) {
      List<Answer> course = new ArrayList<>();
      for (StudentSolo solo : lessons) {
        if (solo.facts().date() != null) {
          student.answers(solo).stream()
              .filter(answer -> answer.question().equals(last.question()))
              .forEach(course::add);
        }
      }
      boolean told = course.stream().anyMatch(answer -> answer.value() != null);
      if (course.size() > 1 && told && last.aim() != null) {
        courses.add((wording.course(course) + " " + LessonWording.way(Course.of(course))).strip());
      }
    }
    return List.copyOf(courses);
  }
}
