package phrasecensus.report.view;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import phrasecensus.report.engraving.Engraving;
import phrasecensus.report.engraving.Layout;
import phrasecensus.report.lesson.Course;
import phrasecensus.report.lesson.Example;
import phrasecensus.report.lesson.ExampleChoice;
import phrasecensus.report.lesson.GoodThing;
import phrasecensus.report.lesson.Home;
import phrasecensus.report.lesson.Lead;
import phrasecensus.report.lesson.LessonLine;
import phrasecensus.report.lesson.Stretch;
import phrasecensus.report.lesson.TellingBars;
import phrasecensus.report.rows.Answer;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.rows.Student;
import phrasecensus.report.rows.StudentSolo;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.LessonWording;
import phrasecensus.report.wording.Task;
import phrasecensus.report.wording.Text;

/**
 * The lesson sheet of a student: the newest solo on one side of paper, with one thing to work on.
 * It says nothing of other students.
 *
 * @param links to the other pages of the student; empty for a sheet that stands alone
 * @param name of the student
 * @param solo title and date
 * @param undated said where the newest is told by file name alone; may be empty
 * @param key which key is home, and who says so; may be empty
 * @param good what goes well
 * @param last last lesson's task and whether this solo shows it
 * @param taskHeading over the task
 * @param task what to work on
 * @param line the solo; a reason where it cannot be drawn
 * @param legend how to read it; empty without it
 * @param passages said where it is not all of the solo; may be empty
 * @param example a phrase that does it; null without one
 * @param change what changed since the solo before; may be empty
 * @param note the teacher's own sentence; may be empty
 */
public record LessonSheet(
    Shell shell,
    List<Shell.Link> links,
    String name,
    String solo,
    String undated,
    String key,
    List<SheetAnswers.Asked> questions,
    String good,
    String last,
    String taskHeading,
    Task task,
    Score line,
    String legend,
    String passages,
    Shown example,
    String change,
    String note) {

  /** A phrase with a heading, whose it is and why it is shown. */
  public record Shown(String heading, String caption, String why, Score score) {}

  /** Sizes of the staff on paper, in pixels between two lines: as large as there is room for. */
  private static final double[] PAPER = {7, 6.6, 6.2, 5.8, 5.5, 5.2};

  private static final double[] PHONE = {6.2, 5.8, 5.4};

  /** Of an example. */
  private static final double EXAMPLE = 6;

  private static final int EXAMPLE_WIDTH = 346;

  private static final int PAPER_WIDTH = 718;
  private static final int PHONE_WIDTH = 344;

  /** How high a solo may stand on a phone, in pixels. */
  private static final double PHONE_HEIGHT = 1250;

  /** Room between two systems, in pixels. */
  private static final double BETWEEN = 3;

  /** The tempo to begin at, as a share of that of the solo, and its bounds. */
  private static final double START = 0.6;

  private static final int SLOWEST = 40;
  private static final int USUAL_CLICK = 60;
  private static final int FASTEST = 100;

  /** Makes the sheet of a student with at least one solo. */
  static LessonSheet of(PageSource source, Student student, Shell shell, List<Shell.Link> links) {
    return new Maker(source, student).sheet(shell, links);
  }

  /** What a lesson on a solo is about. */
  static Lead lead(Student student, StudentSolo solo) {
    return Lead.of(student.answers(solo), solo.facts().columns().get("work_on"));
  }

  /** The task for a solo of a student, before its words are filled in. */
  static Task task(PageSource source, Student student, List<StudentSolo> lessons, int place) {
    StudentSolo solo = lessons.get(place);
    return Task.of(lead(student, solo).finding(), source.level(solo), place);
  }

  private static final class Maker {
    private final PageSource source;
    private final Student student;
    private final List<StudentSolo> lessons;
    private final int place;
    private final StudentSolo solo;
    private final LessonLine line;
    private final List<Answer> answers;
    private final Lead lead;
    private final Optional<Home> home;
    private final LessonWording wording;

    Maker(PageSource source, Student student) {
      this.source = source;
      this.student = student;
      this.lessons = student.inOrderOfLessons();
      this.place = lessons.size() - 1;
      this.solo = lessons.get(place);
      this.line = LessonLine.of(solo.line());
      this.answers = student.answers(solo);
      this.lead = lead(student, solo);
      this.home = home();
      this.wording = new LessonWording(source.catalogue(), source.numbers());
    }

    /**
     * The key that the sheet speaks of. Which mode of a signature a line is in is told by what it
     * rests on; where its notes do not fit the key, that tells little, and a rare mode would only
     * puzzle: then the signature's own major key is meant.
     */
    private Optional<Home> home() {
      Optional<Home> found = Home.of(solo.facts(), solo.line());
      boolean unfit =
          answers.stream()
              .anyMatch(each -> each.question().equals("tonal_centre") && each.isNotYet());
      boolean rare =
          found.isPresent()
              && !List.of("major", "minor", "blues").contains(found.get().scale())
              && "signature".equals(solo.facts().columns().get("centre_source"));
      return unfit && rare ? Optional.of(Home.ofSignature(solo.facts(), solo.line())) : found;
    }

    LessonSheet sheet(Shell shell, List<Shell.Link> links) {
      boolean excerpts = source.settings().excerpts();
      String undated =
          lessons.size() > 1 && solo.facts().date() == null ? Text.of("lesson.undated") : "";
      String key = wording.key(solo.facts(), home, line);
      List<SheetAnswers.Asked> questions = SheetAnswers.of("sheet", answers, line, wording);
      String good =
          LessonWording.good(
              GoodThing.of(line, home.map(Home::home).orElse(null), place), line.hasChords());
      String last = last();
      String change = change();
      Task task = task(source, student, lessons, place).with(fillings());
      // A teacher's sentence may call the student by name.
      String note =
          source.settings().pseudonyms()
              ? ""
              : FileText.printable(solo.facts().columns().getOrDefault("teacher_note", ""));
      String legend =
          Text.of(
              "lesson.legend", Text.of(line.hasChords() ? "lesson.key-or-chord" : "lesson.key"));
      Shown example = excerpts ? example() : null;
      SheetRoom room =
          new SheetRoom()
              .across(false, (undated + " " + key).strip())
              .columns(questions, good, last, change, task)
              .small(Text.of("lesson.passages") + " " + legend)
              .across(true, note);
      double beside =
          example == null ? 0 : height(example.score().wide(), Layout.of(EXAMPLE_WIDTH, EXAMPLE));
      Drawn drawn = excerpts ? drawn(room.left(beside)) : new Drawn(Score.NONE, true);
      return new LessonSheet(
          shell,
          links,
          source.names().student(student),
          title(solo),
          undated,
          key,
          questions,
          good,
          last,
          Text.of(lead.chosen() ? "lesson.task.chosen" : "lesson.task"),
          task,
          drawn.score(),
          drawn.score().isEmpty() ? "" : legend,
          drawn.all() || drawn.score().isEmpty() ? "" : Text.of("lesson.passages"),
          example,
          change,
          note);
    }

    private String title(StudentSolo of) {
      return source.names().solo(student, student.solos().indexOf(of));
    }

    private Map<String, String> fillings() {
      Map<String, String> words = new HashMap<>();
      // Where no key is known, the task takes that of the signature: it has to be some key.
      Home key = home.orElseGet(() -> Home.ofSignature(solo.facts(), solo.line()));
      words.put("home", key.home());
      words.put("third", key.third());
      words.put("fifth", key.fifth());
      words.put("five", key.five());
      words.put("key", key.words());
      words.put("click", String.valueOf(click()));
      return words;
    }

    private long click() {
      Double tempo = solo.facts().tempo();
      return tempo == null
          ? USUAL_CLICK
          : Math.max(SLOWEST, Math.min(FASTEST, Math.round(START * tempo / 4) * 4));
    }

    private String last() {
      if (place == 0) {
        return Text.of("lesson.first");
      }
      Lead before = lead(student, lessons.get(place - 1));
      Answer now =
          answers.stream()
              .filter(answer -> answer.question().equals(before.question()))
              .findFirst()
              .orElse(null);
      return LessonWording.last(before, task(source, student, lessons, place - 1).title(), now);
    }

    /** The clearest change since the last dated solo; empty where there is none to compare with. */
    private String change() {
      if (solo.facts().date() == null) {
        return "";
      }
      StudentSolo before = null;
      for (StudentSolo each : lessons.subList(0, place)) {
        before = each.facts().date() == null ? before : each;
      }
      if (before == null) {
        return "";
      }
      Answer then = null;
      Answer now = null;
      for (Answer old : student.answers(before)) {
        for (Answer answer : answers) {
          boolean clear =
              old.question().equals(answer.question())
                  && old.aim() != null
                  && old.aim().equals(answer.aim())
                  && Course.isClear(old, answer);
          if (clear
              && (now == null
                  || Math.abs(answer.value() - old.value())
                      > Math.abs(now.value() - then.value()))) {
            then = old;
            now = answer;
          }
        }
      }
      return wording.change(
          before.facts().date(), then, now, now != null && now.value() > then.value());
    }

    /**
     * The solo as notation.
     *
     * @param all true where all of it is shown
     */
    private record Drawn(Score score, boolean all) {}

    private Drawn drawn(double room) {
      if (solo.line().notes().isEmpty() || solo.line().bars().isEmpty()) {
        return new Drawn(Score.without(""), true);
      }
      SoloLine toDraw = line.drawn();
      Drawn smallest = null;
      for (int bars = TellingBars.MOST; bars >= 4; bars -= 4) {
        List<TellingBars.Passage> passages = TellingBars.of(line, lead.finding(), bars);
        boolean all = passages.size() == 1 && isAll(passages.get(0));
        if (all && solo.line().bars().size() < bars - 3) {
          continue;
        }
        Score score = fitting(toDraw, passages, room);
        if (score != null) {
          return new Drawn(score, all || !score.reason().isEmpty());
        }
        smallest = new Drawn(drawn(toDraw, passages, last(PAPER), last(PHONE)), all);
      }
      return smallest;
    }

    private boolean isAll(TellingBars.Passage passage) {
      return passage.first() == 0 && passage.last() == solo.line().bars().size() - 1;
    }

    private static double last(double[] sizes) {
      return sizes[sizes.length - 1];
    }

    /** The passages in the largest sizes in which they fit paper and phone; null in none. */
    private Score fitting(SoloLine toDraw, List<TellingBars.Passage> passages, double room) {
      for (int i = 0; i < PAPER.length; i++) {
        double phone = PHONE[Math.min(i, PHONE.length - 1)];
        Score score = drawn(toDraw, passages, PAPER[i], phone);
        if (!score.reason().isEmpty()) {
          return score;
        }
        if (height(score.wide(), Layout.of(PAPER_WIDTH, PAPER[i])) <= room
            && height(score.narrow(), Layout.of(PHONE_WIDTH, phone)) <= PHONE_HEIGHT) {
          return score;
        }
      }
      return null;
    }

    private Score drawn(
        SoloLine toDraw, List<TellingBars.Passage> passages, double paper, double phone) {
      List<Engraving> wide = new ArrayList<>();
      List<Engraving> narrow = new ArrayList<>();
      for (int i = 0; i < passages.size(); i++) {
        TellingBars.Passage passage = passages.get(i);
        Score part =
            source
                .scores()
                .onSheet(
                    "sheet-" + (i + 1),
                    toDraw,
                    solo.facts().keyFifths(),
                    Layout.of(PAPER_WIDTH, paper).bars(passage.first(), passage.last()),
                    Layout.of(PHONE_WIDTH, phone).bars(passage.first(), passage.last()));
        if (!part.reason().isEmpty()) {
          return part;
        }
        wide.addAll(part.wide());
        narrow.addAll(part.narrow());
      }
      return new Score(wide, narrow, "");
    }

    private static double height(List<Engraving> systems, Layout layout) {
      return systems.stream().mapToDouble(each -> layout.height(each) + BETWEEN).sum();
    }

    private Shown example() {
      Optional<Example> found =
          new ExampleChoice(lessons, source.level(solo))
              .of(lead.finding(), source.corpusPhrases().solos(), place);
      if (found.isEmpty()) {
        return null;
      }
      Example example = found.get();
      SoloLine.PhraseSpan phrase = example.moved().phrase();
      Score score = exampleScore(example, phrase);
      return score.isEmpty()
          ? null
          : new Shown(
              LessonWording.model(lead.finding()),
              caption(example),
              wording.example(lead.finding(), example, line.hasChords()),
              score);
    }

    private Score exampleScore(Example example, SoloLine.PhraseSpan phrase) {
      SoloLine moved = example.moved().line();
      int first = -1;
      int last = -1;
      for (int i = 0; i < moved.bars().size(); i++) {
        SoloLine.BarSpan bar = moved.bars().get(i);
        if (bar.end() > phrase.onset() + 1e-9 && bar.onset() < phrase.end() - 1e-9) {
          first = first < 0 ? i : first;
          last = i;
        }
      }
      int from = first;
      int to = last;
      return source
          .scores()
          .onSheet(
              "example",
              moved,
              example.facts().keyFifths(),
              Layout.of(EXAMPLE_WIDTH, EXAMPLE).bars(from, to).focus(phrase.onset(), phrase.end()),
              Layout.of(PHONE_WIDTH, PHONE[0]).bars(from, to).focus(phrase.onset(), phrase.end()));
    }

    private String caption(Example example) {
      Stretch stretch = example.stretch();
      String bars = StudentFigures.bars(stretch.firstBar(), stretch.lastBar());
      if (example.own()) {
        for (StudentSolo each : lessons) {
          if (each.facts().soloId().equals(example.facts().soloId())) {
            return Text.of("lesson.example.yours", FileText.withoutDirection(title(each)), bars);
          }
        }
      }
      String theirs =
          Text.of(
              "lesson.example.theirs",
              StudentFigures.corpusSolo(
                  example.facts().title(), example.facts().performer(), example.facts().soloId()),
              bars);
      return example.inHome() ? Text.of("lesson.example.home", theirs) : theirs;
    }
  }
}
