package phrasecensus.report;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import phrasecensus.report.find.FoundPhrase;
import phrasecensus.report.rows.AtOnce;
import phrasecensus.report.rows.Student;
import phrasecensus.report.rows.StudyRows;
import phrasecensus.report.sheet.Instrument;
import phrasecensus.report.sheet.Sheet;
import phrasecensus.report.view.Pages;
import phrasecensus.report.view.SheetPage;
import phrasecensus.tables.InputException;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableSource;

/**
 * The report of a study: a folder of pages that open from disk. The same rows, manifest and
 * settings give the same bytes.
 */
public final class StudyReport {
  private static final TemplateEngine TEMPLATES =
      TemplateEngine.createPrecompiled(
          null, ContentType.Html, StudyReport.class.getClassLoader(), "phrasecensus.report.page");

  /** Stands in every page: by it a later report knows which pages are its own to replace. */
  private static final String OWN_PAGE = "<meta name=\"generator\" content=\"Phrase Census report";

  private StudyReport() {}

  /**
   * Writes {@code index.html}, one {@code student-….html} a student and one page for each of the
   * student's solos; no page for a solo of the corpus. All pages are made before the first is
   * written. Student pages of an earlier report in the folder that this one does not write again
   * are deleted; other files are left alone.
   *
   * @param folder made when it is missing
   * @throws InputException if a table is missing or cannot be read, or the folder cannot be written
   */
  public static void write(
      TableSource tables,
      Manifest manifest,
      StatisticsCatalogue catalogue,
      ReportSettings settings,
      Path folder) {
    Map<String, String> pages = pages(tables, manifest, catalogue, settings);
    try {
      Files.createDirectories(folder);
      deleteOutdated(folder, pages);
      for (Map.Entry<String, String> page : pages.entrySet()) {
        Files.write(
            folder.resolve(page.getKey()), page.getValue().getBytes(StandardCharsets.UTF_8));
      }
    } catch (IOException | UncheckedIOException e) {
      throw new InputException(
          "Cannot write the report to "
              + folder
              + ": "
              + e.getMessage()
              + ". Choose a folder that can be written.",
          e);
    }
  }

  /**
   * Reads a study once, to make single pages of it again and again.
   *
   * @throws InputException if a table is missing or cannot be read
   */
  public static Warm warm(
      TableSource tables,
      Manifest manifest,
      StatisticsCatalogue catalogue,
      ReportSettings settings) {
    StudyRows rows = StudyRows.read(tables, manifest, settings.concertPitch());
    return new Warm(rows, new Pages(rows, manifest, catalogue, settings));
  }

  /** A study whose rows have been read. */
  public static final class Warm {
    private final StudyRows rows;
    private final Pages pages;

    private Warm(StudyRows rows, Pages pages) {
      this.rows = rows;
      this.pages = pages;
    }

    /** How many students there are. */
    public int students() {
      return rows.students().size();
    }

    /** The page of the corpus, made anew. */
    String corpusPage() {
      return rendered("corpus.jte", pages.corpus());
    }

    /** The page of a student, made anew. */
    public String studentPage(int place) {
      return rendered("student.jte", pages.student(rows.students().get(place)));
    }
  }

  /**
   * A page of found phrases with notation and sound, which stands alone.
   *
   * @param title what the phrases have
   * @param conditions as they were written
   * @param shown of all that were found
   * @param all how many were found
   * @throws InputException if a table is missing or cannot be read
   */
  public static String phrases(
      TableSource tables,
      Manifest manifest,
      StatisticsCatalogue catalogue,
      ReportSettings settings,
      String title,
      List<String> conditions,
      List<FoundPhrase> shown,
      int all) {
    StudyRows rows = StudyRows.read(tables, manifest, settings.concertPitch());
    return rendered(
        "phrases.jte",
        new Pages(rows, manifest, catalogue, settings).phrases(title, conditions, shown, all));
  }

  /**
   * A sheet as a page that stands alone, to be printed or looked at.
   *
   * @param file name of its files without ending
   * @param how what it is for and how it is read
   * @param generator program and version
   */
  public static String sheet(
      Sheet sheet, String file, String title, String how, Instrument player, String generator) {
    return rendered("sheet.jte", SheetPage.of(sheet, file, title, how, player, generator));
  }

  /** The students of a study with their solos, as their players read them. */
  public static List<Student> students(TableSource tables, Manifest manifest) {
    return StudyRows.read(tables, manifest, false).students();
  }

  /** The pages as text by file name, the corpus page first. */
  static Map<String, String> pages(
      TableSource tables,
      Manifest manifest,
      StatisticsCatalogue catalogue,
      ReportSettings settings) {
    StudyRows rows = StudyRows.read(tables, manifest, settings.concertPitch());
    Pages pages = new Pages(rows, manifest, catalogue, settings);
    Map<String, Callable<String>> making = new LinkedHashMap<>();
    making.put(Pages.CORPUS_FILE, () -> rendered("corpus.jte", pages.corpus()));
    if (pages.hasFigures()) {
      making.put(Pages.FIGURES_FILE, () -> rendered("figures.jte", pages.figures()));
    }
    if (pages.hasClass()) {
      making.put(Pages.CLASS_FILE, () -> rendered("class.jte", pages.ofClass()));
    }
    for (Student student : rows.students()) {
      if (!student.answers().isEmpty()) {
        making.put(pages.sheetFile(student), () -> rendered("lesson.jte", pages.sheet(student)));
        making.put(pages.mailedFile(student), () -> rendered("lesson.jte", pages.mailed(student)));
      }
      making.put(pages.file(student), () -> rendered("student.jte", pages.student(student)));
    }
    for (Student student : rows.students()) {
      for (int i = 0; i < student.solos().size(); i++) {
        int place = i;
        making.put(
            pages.file(student, place), () -> rendered("solo.jte", pages.solo(student, place)));
      }
    }
    List<String> texts = AtOnce.made(List.copyOf(making.values()));
    Map<String, String> made = new LinkedHashMap<>();
    for (String file : making.keySet()) {
      made.put(file, texts.get(made.size()));
    }
    return made;
  }

  private static String rendered(String template, Object page) {
    StringOutput output = new StringOutput();
    TEMPLATES.render(template, page, output);
    return output.toString();
  }

  private static void deleteOutdated(Path folder, Map<String, String> pages) throws IOException {
    List<Path> outdated;
    try (Stream<Path> files = Files.list(folder)) {
      outdated =
          files
              .filter(
                  file ->
                      file.getFileName()
                          .toString()
                          .matches(
                              "(student|lesson|mail)-[a-z0-9-]+\\.html|(class|figures)\\.html"))
              .filter(file -> !pages.containsKey(file.getFileName().toString()))
              .filter(StudyReport::isOwn)
              .sorted()
              .toList();
    }
    for (Path file : outdated) {
      Files.delete(file);
    }
  }

  private static boolean isOwn(Path file) {
    try {
      return Files.isRegularFile(file)
          && new String(Files.readAllBytes(file), StandardCharsets.UTF_8).contains(OWN_PAGE);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
