package phrasecensus.tables.verify;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;
import phrasecensus.tables.ColumnType;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSource;

/** What a finished study gave, in the terms of {@link ExpectedResults}. */
final class StudyResults {
  private static final String CORPUS = "corpus";
  private static final List<String> SUMMED = List.of("bars", "notes", "phrases");

  private final Manifest manifest;
  private final TableSource tables;

  StudyResults(Manifest manifest, TableSource tables) {
    this.manifest = manifest;
    this.tables = tables;
  }

  /** Counts by name: those of the corpus, and the solos of students. */
  Map<String, Long> counts() {
    long files = manifest.inputs().stream().filter(each -> each.role().equals(CORPUS)).count();
    Set<String> players = new HashSet<>();
    Map<String, Long> sums = new LinkedHashMap<>();
    SUMMED.forEach(column -> sums.put(column, 0L));
    long solos = 0;
    List<String> columns = new ArrayList<>(SUMMED);
    columns.add("performer");
    try (Stream<TableRow> rows = tables.stream("solos", columns, Map.of("role", Set.of(CORPUS)))) {
      for (TableRow solo : (Iterable<TableRow>) rows::iterator) {
        solos++;
        players.add(solo.text("performer"));
        sums.replaceAll((column, sum) -> sum + solo.integer(column));
      }
    }
    players.remove("");
    Map<String, Long> counts = new LinkedHashMap<>();
    counts.put("files", files);
    counts.put("rejected", files - solos);
    counts.put("solos", solos);
    counts.put("players", (long) players.size());
    counts.putAll(sums);
    counts.put("student-solos", (long) tables.rows("solos", Map.of("role", "student")).size());
    return counts;
  }

  /** Digests of the tables by name. */
  Map<String, String> digests() {
    Map<String, String> digests = new LinkedHashMap<>();
    manifest.tables().forEach((table, written) -> digests.put(table, written.digest()));
    return digests;
  }

  /** SHA-256 of every input by role and path, metadata files included. */
  Map<String, String> inputs() {
    Map<String, String> inputs = new TreeMap<>();
    for (Manifest.Input input : manifest.inputs()) {
      inputs.put(input.role() + "/" + input.file(), text(input.sha256()));
    }
    for (Manifest.MetadataFile input : manifest.metadata()) {
      inputs.put("metadata of " + input.role() + "/" + input.file(), text(input.sha256()));
    }
    return inputs;
  }

  private static String text(String sha256) {
    return sha256 == null ? "" : sha256;
  }

  /**
   * The number that a result names; null when no row, or more than one, or no value is there.
   *
   * @throws IllegalArgumentException if the table or a column is unknown or of the wrong type
   */
  Double value(ExpectedResults.Result result) {
    TableSchema schema = ExpectedResults.schema(result);
    List<TableRow> rows = tables.rows(result.table(), result.row());
    if (rows.size() != 1) {
      return null;
    }
    Object value = rows.get(0).value(schema.place(result.column()));
    return value == null ? null : ((Number) value).doubleValue();
  }

  /** True for a column that holds one number. */
  static boolean isNumber(ColumnType type) {
    return type == ColumnType.INTEGER || type == ColumnType.LONG || type == ColumnType.DOUBLE;
  }
}
