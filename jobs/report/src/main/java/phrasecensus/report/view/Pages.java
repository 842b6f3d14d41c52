package phrasecensus.report.view;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import phrasecensus.report.ReportSettings;
import phrasecensus.report.rows.Student;
import phrasecensus.report.rows.StudyRows;
import phrasecensus.report.wording.Numbers;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.StatisticsCatalogue;

/** All pages of a report. */
public final class Pages {
  /** File name of the corpus page. */
  public static final String CORPUS_FILE = "index.html";

  private final StudyRows rows;
  private final Manifest manifest;
  private final StatisticsCatalogue catalogue;
  private final ReportSettings settings;
  private final Numbers numbers;
  private final Names names;

  public Pages(
      StudyRows rows, Manifest manifest, StatisticsCatalogue catalogue, ReportSettings settings) {
    this.rows = rows;
    this.manifest = manifest;
    this.catalogue = catalogue;
    this.settings = settings;
    this.numbers = new Numbers(settings.locale());
    this.names = new Names(rows.students(), settings.pseudonyms(), numbers);
  }

  /** The page of the corpus. */
  public CorpusPage corpus() {
    return CorpusPage.of(
        rows,
        manifest,
        catalogue,
        settings,
        names,
        numbers,
        shell(
            manifest.study().title(),
            true,
            List.of(
                new Shell.Link("#usual", "What is usual"),
                new Shell.Link("#values", "Note values"),
                new Shell.Link("#lengths-part", "Phrase lengths"),
                new Shell.Link("#facets", "All norms"),
                new Shell.Link("#files", "Files"),
                new Shell.Link("#method", "Method"))));
  }

  /** The pages of the students by file name, in the order of the students. */
  public Map<String, StudentPage> students() {
    Map<String, StudentPage> pages = new LinkedHashMap<>();
    for (Student student : rows.students()) {
      pages.put(
          names.page(student),
          StudentPage.of(
              rows,
              student,
              manifest.study().title(),
              catalogue,
              settings,
              names,
              numbers,
              shell(
                  names.student(student) + " \u2013 " + manifest.study().title(),
                  false,
                  List.of(
                      new Shell.Link("#questions", "Three questions"),
                      new Shell.Link("#apart", "Where they stand apart"),
                      new Shell.Link("#values", "Note values"),
                      new Shell.Link("#lengths-part", "Phrase lengths"),
                      new Shell.Link("#dates", "Over the dates"),
                      new Shell.Link("#solos", "Solo by solo")))));
    }
    return pages;
  }

  private Shell shell(String title, boolean home, List<Shell.Link> sections) {
    List<Shell.Link> pages = new ArrayList<>();
    pages.add(new Shell.Link(CORPUS_FILE, "The corpus"));
    for (Student student : rows.students()) {
      pages.add(new Shell.Link(names.page(student), names.student(student)));
    }
    return new Shell(title, manifest.program(), home, sections, pages);
  }
}
