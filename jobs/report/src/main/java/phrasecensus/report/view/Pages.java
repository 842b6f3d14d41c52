package phrasecensus.report.view;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.report.ReportSettings;
import phrasecensus.report.find.FoundPhrase;
import phrasecensus.report.rows.Group;
import phrasecensus.report.rows.Student;
import phrasecensus.report.rows.StudyRows;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.Numbers;
import phrasecensus.report.wording.Text;
import phrasecensus.report.wording.Wording;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.row.FiguresRow;

/** All pages of a report; several threads may ask for one each. */
public final class Pages {
  /** File name of the corpus page. */
  public static final String CORPUS_FILE = "index.html";

  private final PageSource source;

  public Pages(
      StudyRows rows, Manifest manifest, StatisticsCatalogue catalogue, ReportSettings settings) {
    Numbers numbers = new Numbers(settings.locale());
    this.source =
        new PageSource(
            rows,
            manifest,
            catalogue,
            settings,
            new Names(rows.students(), settings.pseudonyms(), numbers),
            numbers,
            new Wording(numbers),
            new Scores(),
            new CorpusPhrases(rows));
  }

  /** File name of the page of the class. */
  public static final String CLASS_FILE = "class.html";

  /** File name of the page of figures. */
  public static final String FIGURES_FILE = "figures.html";

  /** True where the study has figures, be there any or none. */
  public boolean hasFigures() {
    return source.rows().has(FiguresRow.TABLE.name()) && source.rows().solosIn(Group.ALL) > 0;
  }

  /** The page of what the solos of the corpus share. */
  public FiguresPage figures() {
    return new FiguresPage(
        shell(
            Text.of("figures.title") + " \u2013 " + source.manifest().study().title(),
            false,
            List.of(),
            allPages()),
        FileText.printable(source.manifest().study().title()),
        ShownFigure.ofCorpus(source),
        source.settings().excerpts());
  }

  /** True where a page of the class has something to say. */
  public boolean hasClass() {
    return ClassPage.isOf(source.rows().students());
  }

  /** The page of the class, for the teacher. */
  public ClassPage ofClass() {
    String title = Text.of("class.title") + " \u2013 " + source.manifest().study().title();
    // Its table leads to everybody.
    return ClassPage.of(
        source, shell(title, false, List.of(), allPages().subList(0, hasFigures() ? 3 : 2)));
  }

  /** The page of the corpus. */
  public CorpusPage corpus() {
    List<Shell.Link> sections = new ArrayList<>();
    // A class without a corpus has files and a method, and its own page.
    if (source.rows().solosIn(Group.ALL) > 0 || !hasClass()) {
      sections.add(new Shell.Link("#usual", Text.of("corpus.usual")));
      sections.add(new Shell.Link("#values", Text.of("corpus.values")));
      sections.add(new Shell.Link("#lengths-part", Text.of("corpus.lengths")));
      if (ContextEnds.of(source.rows().contextEnds(), source.numbers()) != null) {
        sections.add(new Shell.Link("#contexts", Text.of("corpus.contexts")));
      }
      if (hasFigures()) {
        sections.add(new Shell.Link("#figures", Text.of("figures.title")));
      }
      if (!source.rows().contrasts().isEmpty()) {
        sections.add(new Shell.Link("#beside", Text.of("corpus.beside")));
      }
      sections.add(new Shell.Link("#facets", Text.of("corpus.facets")));
      sections.add(new Shell.Link("#rules", Text.of("corpus.rules")));
    }
    sections.add(new Shell.Link("#files", Text.of("corpus.files")));
    sections.add(new Shell.Link("#method", Text.of("corpus.method")));
    return CorpusPage.of(
        source, shell(source.manifest().study().title(), true, sections, allPages()));
  }

  /**
   * The page of phrases that somebody looked for: one file that stands alone.
   *
   * @param conditions as they were written
   * @param all how many were found; at least as many as are shown
   */
  public PhrasesPage phrases(
      String title, List<String> conditions, List<FoundPhrase> shown, int all) {
    return PhrasesPage.of(
        source,
        Shell.alone(title, source.manifest().program(), pitch(), source.settings().excerpts()),
        title,
        conditions,
        shown,
        all);
  }

  /** File name of the page of a student. */
  public String file(Student student) {
    return source.names().page(student);
  }

  /** File name of the lesson sheet of a student. */
  public String sheetFile(Student student) {
    return source.names().sheet(student);
  }

  /** File name of the same sheet to be mailed. */
  public String mailedFile(Student student) {
    return source.names().mailed(student);
  }

  /** The lesson sheet of a student, with links to the student's other pages. */
  public LessonSheet sheet(Student student) {
    return LessonSheet.of(
        source,
        student,
        shell(lessonTitle(student), false, List.of(), List.of()),
        List.of(
            new Shell.Link(source.names().page(student), Text.of("lesson.page")),
            new Shell.Link(source.names().mailed(student), Text.of("lesson.alone"))));
  }

  /** The same sheet alone: one file that can be mailed, with nothing of the class in it. */
  public LessonSheet mailed(Student student) {
    return LessonSheet.of(
        source, student, shell(lessonTitle(student), false, List.of(), List.of()), List.of());
  }

  private String lessonTitle(Student student) {
    return Text.of("lesson.title") + " \u2013 " + source.names().student(student);
  }

  /** File name of the page of one of a student's solos. */
  public String file(Student student, int place) {
    return source.names().page(student, place);
  }

  /** The page of a student. */
  public StudentPage student(Student student) {
    List<Shell.Link> sections = new ArrayList<>();
    for (String section :
        List.of(
            "answers",
            "apart",
            "practice",
            "figures",
            "questions",
            "phrases",
            "values",
            "dates",
            "near",
            "solos")) {
      boolean left =
          section.equals("near")
                  && student.solos().stream().allMatch(solo -> solo.neighbours().isEmpty())
              || section.equals("figures") && !source.rows().has(FiguresRow.TABLE.name())
              || section.equals("answers") && student.answers().isEmpty();
      if (!left) {
        sections.add(new Shell.Link("#" + section, Text.of("student." + section)));
      }
    }
    return StudentPage.of(
        source, student, shell(title(student), false, sections, ownPages(student)));
  }

  /** The page of one of a student's solos. */
  public SoloPage solo(Student student, int place) {
    String title = source.names().solo(student, place) + " \u2013 " + title(student);
    return SoloPage.of(source, student, place, shell(title, false, List.of(), ownPages(student)));
  }

  private String title(Student student) {
    return source.names().student(student) + " \u2013 " + source.manifest().study().title();
  }

  /** What a page for the teacher or the researcher links to: all pages but those of solos. */
  private List<Shell.Link> allPages() {
    List<Shell.Link> pages = new ArrayList<>();
    pages.add(new Shell.Link(CORPUS_FILE, Text.of("shell.corpus")));
    if (hasFigures()) {
      pages.add(new Shell.Link(FIGURES_FILE, Text.of("figures.title")));
    }
    if (hasClass()) {
      pages.add(new Shell.Link(CLASS_FILE, Text.of("shell.class")));
    }
    for (Student student : source.rows().students()) {
      pages.add(new Shell.Link(source.names().page(student), source.names().student(student)));
    }
    return pages;
  }

  /**
   * What a student's page links to: the student's own pages, and the corpus only where no other
   * student's name stands there.
   */
  private List<Shell.Link> ownPages(Student student) {
    List<Shell.Link> pages = new ArrayList<>();
    if (!student.answers().isEmpty()) {
      pages.add(new Shell.Link(source.names().sheet(student), Text.of("lesson.sheet")));
    }
    pages.add(new Shell.Link(source.names().page(student), source.names().student(student)));
    if (source.rows().students().size() == 1) {
      pages.add(new Shell.Link(CORPUS_FILE, Text.of("shell.corpus")));
    }
    return pages;
  }

  private Shell shell(
      String title, boolean home, List<Shell.Link> sections, List<Shell.Link> pages) {
    return new Shell(
        title,
        source.manifest().program(),
        pitch(),
        source.settings().excerpts(),
        true,
        home,
        sections,
        pages);
  }

  private String pitch() {
    return !source.settings().excerpts()
        ? ""
        : Text.of(source.settings().concertPitch() ? "shell.pitch.concert" : "shell.pitch.written");
  }
}
