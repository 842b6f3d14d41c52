package phrasecensus.composer;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import phrasecensus.composer.cast.Commission;
import phrasecensus.composer.cast.Programme;
import phrasecensus.composer.line.Departure;
import phrasecensus.composer.line.Style;
import phrasecensus.composer.score.ScoreWriter;

/** The generated part of the sample corpus, in memory. */
public final class SampleCorpus {
  private SampleCorpus() {}

  /** Every generated file by its path under the sample corpus, with {@code /}. */
  public static SortedMap<String, byte[]> files() {
    SortedMap<String, byte[]> files = new TreeMap<>();
    for (Commission commission : Programme.corpus()) {
      add(files, commission);
    }
    for (Commission commission : Programme.students()) {
      add(files, commission);
    }
    files.put("corpus/solos.csv", text(corpusTable()));
    files.put("students/solos.csv", text(studentTable()));
    files.put("expected/students.csv", text(truthTable()));
    return files;
  }

  private static void add(SortedMap<String, byte[]> files, Commission commission) {
    byte[] bytes = ScoreWriter.bytes(commission.sheet(), commission.dialect());
    if (files.put(commission.file(), bytes) != null) {
      throw new IllegalStateException("Cannot write " + commission.file() + " twice");
    }
  }

  private static List<List<String>> corpusTable() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(
        List.of(
            "file", "performer", "style", "instrument", "tune", "form", "key", "tempo", "year"));
    Programme.corpus().stream()
        .sorted((a, b) -> a.file().compareTo(b.file()))
        .forEach(
            c ->
                rows.add(
                    List.of(
                        within(c.file()),
                        c.player().name(),
                        c.style().name(),
                        c.player().instrument().tableName(),
                        c.tune().title(),
                        c.tune().form(),
                        c.tune().key().toString(),
                        String.valueOf(c.tempo()),
                        String.valueOf(year(c)))));
    return rows;
  }

  /**
   * The year in which the Society is said to have played it: each style had its time, some thirteen
   * years long.
   */
  private static int year(Commission commission) {
    int first =
        commission.style().equals(Style.QUAYSIDE_SWING)
            ? 1944
            : commission.style().equals(Style.HEADLAND_BOP) ? 1951 : 1959;
    return first + Math.floorMod(commission.seed(), 13);
  }

  private static List<List<String>> studentTable() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("file", "student", "date", "instrument", "style", "tempo", "tune", "key"));
    for (Commission c : Programme.students()) {
      rows.add(
          List.of(
              within(c.file()),
              c.player().name(),
              c.date(),
              c.player().instrument().tableName(),
              c.style().name(),
              String.valueOf(c.tempo()),
              c.tune().title(),
              c.tune().key().toString()));
    }
    return rows;
  }

  private static List<List<String>> truthTable() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("student", "file", "date", "departure_strength", "facet", "statistic_hint"));
    for (Commission c : Programme.students()) {
      Departure.Kind kind = c.departure().kind();
      rows.add(
          List.of(
              c.player().name(),
              within(c.file()),
              c.date(),
              String.valueOf(c.departure().strength()),
              kind.facet(),
              kind.hint()));
    }
    return rows;
  }

  private static String within(String file) {
    return file.substring(file.indexOf('/') + 1);
  }

  private static byte[] text(List<List<String>> rows) {
    StringBuilder text = new StringBuilder();
    for (List<String> row : rows) {
      List<String> cells = new ArrayList<>();
      for (String cell : row) {
        cells.add(cell.contains(",") || cell.contains("\"") ? quoted(cell) : cell);
      }
      text.append(String.join(",", cells)).append('\n');
    }
    return text.toString().getBytes(StandardCharsets.UTF_8);
  }

  private static String quoted(String cell) {
    return '"' + cell.replace("\"", "\"\"") + '"';
  }
}
