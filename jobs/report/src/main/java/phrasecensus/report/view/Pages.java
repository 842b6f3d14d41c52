package phrasecensus.report.view;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import phrasecensus.report.ReportSettings;
import phrasecensus.report.rows.Student;
import phrasecensus.report.rows.StudyRows;
import phrasecensus.report.wording.Numbers;
import phrasecensus.report.wording.Text;
import phrasecensus.report.wording.Wording;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.StatisticsCatalogue;

/** All pages of a report. */
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
            new Wording(numbers));
  }

  /** The page of the corpus. */
  public CorpusPage corpus() {
    List<Shell.Link> sections = new ArrayList<>();
    sections.add(new Shell.Link("#usual", Text.of("corpus.usual")));
    sections.add(new Shell.Link("#values", Text.of("corpus.values")));
    sections.add(new Shell.Link("#lengths-part", Text.of("corpus.lengths")));
    if (!source.rows().contrasts().isEmpty()) {
      sections.add(new Shell.Link("#beside", Text.of("corpus.beside")));
    }
    sections.add(new Shell.Link("#facets", Text.of("corpus.facets")));
    sections.add(new Shell.Link("#rules", Text.of("corpus.rules")));
    sections.add(new Shell.Link("#files", Text.of("corpus.files")));
    sections.add(new Shell.Link("#method", Text.of("corpus.method")));
    return CorpusPage.of(source, shell(source.manifest().study().title(), true, sections));
  }

  /** The pages of the students by file name, in the order of the students. */
  public Map<String, StudentPage> students() {
    Map<String, StudentPage> pages = new LinkedHashMap<>();
    for (Student student : source.rows().students()) {
      pages.put(source.names().page(student), student(student));
    }
    return pages;
  }

  /** The page of a student. */
  public StudentPage student(Student student) {
    List<Shell.Link> sections = new ArrayList<>();
    for (String section :
        List.of("questions", "apart", "practice", "phrases", "values", "dates", "near", "solos")) {
      boolean left =
          section.equals("near")
              && student.solos().stream().allMatch(solo -> solo.neighbours().isEmpty());
      if (!left) {
        sections.add(new Shell.Link("#" + section, Text.of("student." + section)));
      }
    }
    return StudentPage.of(source, student, shell(title(student), false, sections));
  }

  /** The pages of the students' solos by file name, in the order of students and solos. */
  public Map<String, SoloPage> solos() {
    Map<String, SoloPage> pages = new LinkedHashMap<>();
    for (Student student : source.rows().students()) {
      for (int i = 0; i < student.solos().size(); i++) {
        String title = source.names().solo(student, i) + " \u2013 " + title(student);
        pages.put(
            source.names().page(student, i),
            SoloPage.of(source, student, i, shell(title, false, List.of())));
      }
    }
    return pages;
  }

  private String title(Student student) {
    return source.names().student(student)
        + " \u2013 "
        + source.manifest().study().title();
  }

  private Shell shell(String title, boolean home, List<Shell.Link> sections) {
    List<Shell.Link> pages = new ArrayList<>();
    pages.add(new Shell.Link(CORPUS_FILE, Text.of("shell.corpus")));
    for (Student student : source.rows().students()) {
      pages.add(new Shell.Link(source.names().page(student), source.names().student(student)));
    }
    return new Shell(
        title,
        source.manifest().program(),
        pitch(),
        source.settings().excerpts(),
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
