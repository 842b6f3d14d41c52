package phrasecensus.comparison;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import phrasecensus.rows.FileRows;
import phrasecensus.tables.AimsDefinition;
import phrasecensus.tables.Metadata;
import phrasecensus.tables.MetadataColumns;
import phrasecensus.tables.MetadataType;
import phrasecensus.tables.StudySettings;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;

/** Solos read in a plain loop and answered: the tables of a study that the lesson needs. */
final class Lessons {
  private final Map<String, List<TableRow>> tables = new LinkedHashMap<>();
  private final AnswerRows answers;

  private Lessons(
      Map<String, byte[]> files, Map<String, Map<String, String>> metadata, AimsDefinition aims) {
    FileRows reading =
        new FileRows(
            StudySettings.defaults(),
            MetadataColumns.solosSchema(
                metadata.values().stream()
                    .flatMap(row -> row.keySet().stream())
                    .distinct()
                    .filter(column -> !Metadata.FILLING.contains(column))
                    .collect(Collectors.toMap(column -> column, column -> MetadataType.TEXT))));
    files.forEach(
        (file, bytes) ->
            reading
                .of("student", file, bytes, metadata.getOrDefault(file, Map.of()))
                .rows()
                .forEach(
                    (table, rows) ->
                        tables.computeIfAbsent(table, name -> new ArrayList<>()).addAll(rows)));
    answers = AnswerRows.of(source(), aims);
  }

  /** Every score of a folder as a student of its own. */
  static Lessons in(Path folder) {
    Map<String, byte[]> files = new TreeMap<>();
    try (Stream<Path> paths = Files.walk(folder)) {
      for (Path path : (Iterable<Path>) paths::iterator) {
        if (path.toString().matches(".*\\.(musicxml|xml|mxl)")) {
          files.put(folder.relativize(path).toString(), Files.readAllBytes(path));
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return of(files, Map.of(), AimsDefinition.DEFAULT);
  }

  static Lessons of(
      Map<String, byte[]> files, Map<String, Map<String, String>> metadata, AimsDefinition aims) {
    return new Lessons(files, metadata, aims);
  }

  private TableSource source() {
    return (table, equal) ->
        tables.getOrDefault(table, List.of()).stream()
            .filter(
                row ->
                    equal.entrySet().stream()
                        .allMatch(each -> each.getValue().equals(row.text(each.getKey()))))
            .toList();
  }

  List<TableRow> rows(String table) {
    return switch (table) {
      case "answers" -> answers.answers();
      case "aims" -> answers.aims();
      default -> tables.getOrDefault(table, List.of());
    };
  }

  List<String> remarks() {
    return answers.remarks();
  }

  /** The answers of scope {@code solo} by file, then question. */
  Map<String, Map<String, TableRow>> bySolo() {
    Map<String, Map<String, TableRow>> found = new TreeMap<>();
    for (TableRow row : answers.answers()) {
      if (row.text("scope").equals(AnswerRows.SOLO)) {
        found
            .computeIfAbsent(row.text("file"), file -> new LinkedHashMap<>())
            .put(row.text("question"), row);
      }
    }
    return found;
  }

  /** What the lesson on a file starts with; {@code none} for nothing. */
  String first(String file) {
    return bySolo().get(file).values().stream()
        .filter(row -> row.flag("first"))
        .map(row -> row.text("finding"))
        .findFirst()
        .orElse("none");
  }

  /** Verdicts and figures of a solo, for the message of a test that fails. */
  String told(String file) {
    return bySolo().get(file).values().stream()
        .map(
            row ->
                row.text("verdict")
                    + " "
                    + row.text("aim")
                    + " "
                    + row.number("value")
                    + " n "
                    + row.integer("n"))
        .toList()
        .toString();
  }

  /** A value of a statistic of a solo; null where undefined. */
  Double value(String file, String statistic) {
    return rows("solo_statistics").stream()
        .filter(row -> row.text("file").equals(file) && row.text("statistic").equals(statistic))
        .findFirst()
        .orElseThrow()
        .number("value");
  }

  /** Prints what was found in a folder, a line a solo. */
  public static void main(String[] args) {
    Lessons lessons = in(Path.of(args[0]));
    Map<String, TableRow> solos = new TreeMap<>();
    lessons.rows("solos").forEach(row -> solos.put(row.text("file"), row));
    lessons
        .bySolo()
        .forEach(
            (file, answers) -> {
              StringBuilder line = new StringBuilder(file);
              TableRow solo = solos.get(file);
              line.append(' ')
                  .append(solo.value("centre_tonic_pc"))
                  .append(' ')
                  .append(solo.text("centre_mode"))
                  .append('/')
                  .append(solo.text("centre_scale"))
                  .append('/')
                  .append(solo.text("centre_source"));
              answers
                  .values()
                  .forEach(
                      row ->
                          line.append(" | ")
                              .append(row.text("verdict"))
                              .append(' ')
                              .append(row.text("aim"))
                              .append(' ')
                              .append(
                                  row.number("value") == null
                                      ? "-"
                                      : String.format("%.3f", row.number("value")))
                              .append(" n")
                              .append(row.integer("n")));
              System.out.println(line + " | FIRST " + lessons.first(file));
            });
  }
}
