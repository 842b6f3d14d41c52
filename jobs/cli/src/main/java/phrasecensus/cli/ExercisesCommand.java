package phrasecensus.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import phrasecensus.report.StudyReport;
import phrasecensus.report.exercise.StudentExercises;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.rows.Student;
import phrasecensus.report.rows.StudentSolo;
import phrasecensus.report.sheet.Sheet;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.Text;
import phrasecensus.store.StudyFolder;
import phrasecensus.tables.InputException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code exercises}: what can be made of one phrase of a student. */
@Command(
    name = "exercises",
    description =
        "Writes exercises made from a student's own phrase: the same notes as eighths, with a bar"
            + " of rest after two bars, ending on 1, 3, 5 and 7 of the chord, and in another key."
            + " Only what stays singable is made: within a twelfth and the instrument's range,"
            + " without a leap above an octave that the phrase has not, without three leaps above a"
            + " fourth in a row, without a shorter value than the phrase has. MusicXML, MIDI and a"
            + " page to print.",
    mixinStandardHelpOptions = true,
    footer = {
      "",
      "Example:",
      "  phrase-census exercises my-study --student \"Jory Venn\" --into handout"
    })
final class ExercisesCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "STUDY", description = "A study folder, or the study file of one.")
  private String location;

  @Option(
      names = "--student",
      paramLabel = "NAME",
      required = true,
      description = "Whose phrase, as the study names its students.")
  private String name;

  @Option(
      names = "--solo",
      paramLabel = "NUMBER",
      description = "Which solo, from 1 in the order of the report; default: the newest.")
  private Integer solo;

  @Option(
      names = "--phrase",
      paramLabel = "NUMBER",
      description =
          "Which phrase of it, from 1; default: that of one and a half to four and a half bars of"
              + " which most can be made.")
  private Integer phrase;

  @Option(
      names = "--into",
      paramLabel = "FOLDER",
      required = true,
      description = "Folder of the sheet, which is called exercises.")
  private Path into;

  @Option(names = "--force", description = "Replace exercises that are there.")
  private boolean force;

  @Override
  public Integer call() {
    SheetFiles files = new SheetFiles(into, "exercises");
    files.refuseToReplace(force);
    String folderName = QueryOptions.folder(location);
    try (StudyFolder folder = StudyFolder.finishedToRead(folderName, StudyFolder.configuration())) {
      if (!folder.manifest().report().excerpts()) {
        throw new InputException(
            "Cannot write exercises: the study file of "
                + location
                + " keeps excerpts out (report: excerpts: false).");
      }
      Student student = student(StudyReport.students(folder.source(), folder.manifest()));
      StudentExercises made = made(solo(student));
      String title = Text.of("exercise.heading");
      Sheet sheet = made.sheet(title);
      files.write(
          sheet, title, Text.of("exercise.how"), made.player(), folder.manifest().program());
      PrintWriter out = spec.commandLine().getOut();
      out.println(FileText.printable(made.solo().facts().file()));
      sheet.stretches().forEach(each -> out.println("  " + each.caption()));
      if (!made.leftOut().isEmpty()) {
        out.println(made.leftOut());
      }
      files.tell(out);
    }
    return ExitCode.DONE;
  }

  private Student student(List<Student> students) {
    List<String> names = students.stream().map(each -> FileText.printable(each.name())).toList();
    return students.stream()
        .filter(each -> each.name().equals(name))
        .findFirst()
        .orElseThrow(
            () ->
                new InputException(
                    "Cannot write exercises: the study has no student "
                        + name
                        + ". "
                        + (names.isEmpty()
                            ? "It has none at all."
                            : "There is: " + String.join(", ", names) + ".")));
  }

  private StudentSolo solo(Student student) {
    int solos = student.solos().size();
    if (solo != null && (solo < 1 || solo > solos)) {
      throw new ParameterException(
          spec.commandLine(),
          "Invalid value for --solo: " + solo + ". It goes from 1 to " + solos + ".");
    }
    return student.solos().get(solo == null ? solos - 1 : solo - 1);
  }

  private StudentExercises made(StudentSolo of) {
    if (phrase == null) {
      return StudentExercises.best(of)
          .orElseThrow(
              () ->
                  new InputException(
                      "Cannot write exercises: no phrase of one and a half to four and a half bars"
                          + " in "
                          + FileText.printable(of.facts().file())
                          + " gives one. Name another with --phrase, or another --solo."));
    }
    Optional<SoloLine.PhraseSpan> span = of.line().phrase(phrase - 1);
    if (span.isEmpty()) {
      throw new ParameterException(
          spec.commandLine(),
          "Invalid value for --phrase: "
              + phrase
              + ". It goes from 1 to "
              + of.line().phrases().size()
              + ".");
    }
    return StudentExercises.of(of, span.get())
        .orElseThrow(
            () ->
                new InputException(
                    "Cannot write exercises of phrase "
                        + phrase
                        + ": its bars are in no metre that is known. Choose another --phrase."));
  }
}
