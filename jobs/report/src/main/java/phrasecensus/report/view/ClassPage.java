package phrasecensus.report.view;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import phrasecensus.report.lesson.Lead;
import phrasecensus.report.rows.Answer;
import phrasecensus.report.rows.Student;
import phrasecensus.report.rows.StudentSolo;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.Text;
import phrasecensus.report.wording.Wording;

/**
 * The page of the class, for the teacher alone: how each student's last solos stand to the
 * questions, and who has which thing to work on. No student's page links to it.
 *
 * @param study title of the study
 * @param students in order of their names
 * @param first who works on what, in the order of findings
 * @param own true where some student is asked a question of the teacher's own
 * @param unknown what the metadata ask to work on and nobody knows, in sentences
 */
public record ClassPage(
    Shell shell,
    String study,
    List<Line> students,
    List<First> first,
    boolean own,
    List<String> unknown) {

  /** How many solos of a student are told. */
  static final int MOST_DATES = 4;

  private static final List<String> FINDINGS =
      List.of(
          "outside_key",
          "weak_landings",
          "long_notes",
          "no_breath",
          "fragments",
          "own",
          "not_enough",
          "none");

  /**
   * A student.
   *
   * @param sheet link to the lesson sheet
   * @param page link to the student's page
   * @param mailed link to the sheet that stands alone
   * @param newest title and date of the newest solo
   * @param first what to work on, in words
   * @param answers of each question, the columns of the table
   */
  public record Line(
      Shell.Link sheet,
      Shell.Link page,
      Shell.Link mailed,
      String newest,
      String first,
      List<List<Sign>> answers) {}

  /**
   * How one solo stands to one question.
   *
   * @param shape of the page's stock; never told by colour alone
   * @param style of the shape
   * @param words the same in words, with the date
   */
  public record Sign(String shape, String style, String words) {}

  /** Who works on one thing. */
  public record First(String finding, List<Shell.Link> students) {}

  /** True where there is something for the page to say. */
  static boolean isOf(List<Student> students) {
    return students.stream().anyMatch(student -> !student.answers().isEmpty());
  }

  static ClassPage of(PageSource source, Shell shell) {
    List<Line> lines = new ArrayList<>();
    List<String> unknown = new ArrayList<>();
    Map<String, List<Shell.Link>> byFinding = new LinkedHashMap<>();
    boolean own =
        source.rows().students().stream()
            .flatMap(student -> student.answers().stream())
            .anyMatch(answer -> answer.question().equals("own"));
    for (Student student : source.rows().students()) {
      if (student.answers().isEmpty()) {
        continue;
      }
      List<StudentSolo> lessons = student.inOrderOfLessons();
      StudentSolo newest = lessons.get(lessons.size() - 1);
      Lead lead = LessonSheet.lead(student, newest);
      Shell.Link sheet =
          new Shell.Link(source.names().sheet(student), source.names().student(student));
      byFinding.computeIfAbsent(lead.finding(), any -> new ArrayList<>()).add(sheet);
      String asked = newest.facts().columns().get("work_on");
      if (!Lead.isKnown(asked) && !source.settings().pseudonyms()) {
        unknown.add(
            Text.of("class.unknown", source.names().student(student), FileText.printable(asked)));
      }
      lines.add(
          new Line(
              sheet,
              new Shell.Link(source.names().page(student), Text.of("class.page")),
              new Shell.Link(source.names().mailed(student), Text.of("class.mailed")),
              source.names().solo(student, student.solos().indexOf(newest)),
              finding(lead.finding()) + (lead.chosen() ? Text.of("class.chosen") : ""),
              answers(source, student, lessons, own)));
    }
    List<First> first = new ArrayList<>();
    for (String finding : FINDINGS) {
      if (byFinding.containsKey(finding)) {
        first.add(new First(Wording.capitalised(finding(finding)), byFinding.get(finding)));
      }
    }
    return new ClassPage(
        shell, FileText.printable(source.manifest().study().title()), lines, first, own, unknown);
  }

  private static String finding(String finding) {
    return Text.of("class.finding." + finding);
  }

  private static List<List<Sign>> answers(
      PageSource source, Student student, List<StudentSolo> lessons, boolean own) {
    List<List<Sign>> columns = new ArrayList<>();
    List<String> questions =
        own
            ? List.of("tonal_centre", "landings", "movement", "phrases", "own")
            : List.of("tonal_centre", "landings", "movement", "phrases");
    List<StudentSolo> last =
        lessons.subList(Math.max(0, lessons.size() - MOST_DATES), lessons.size());
    List<String> labels = source.names().labels(student);
    for (String question : questions) {
      List<Sign> signs = new ArrayList<>();
      for (StudentSolo solo : last) {
        String label = labels.get(student.solos().indexOf(solo));
        for (Answer answer : student.answers(solo)) {
          if (answer.question().equals(question)) {
            signs.add(sign(answer, label));
          }
        }
      }
      columns.add(List.copyOf(signs));
    }
    return List.copyOf(columns);
  }

  private static Sign sign(Answer answer, String label) {
    String shape = answer.isMet() ? "circle" : answer.isNotYet() ? "diamond" : "square";
    String style = answer.isMet() ? "student full" : answer.isNotYet() ? "student open" : "untold";
    return new Sign(
        shape, style, Text.of("class.sign", label, Text.of("class." + answer.verdict().word())));
  }
}
