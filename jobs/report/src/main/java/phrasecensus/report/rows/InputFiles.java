package phrasecensus.report.rows;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;

/**
 * The input files of a study, counted, and the first of those that there is something to tell of.
 *
 * @param all how many there were, read or not
 * @param rejected how many were not read
 * @param firstRejected the first of these, in the order of the table
 * @param twins corpus files that are a student's too, the first by their paths: left out where that
 *     student is compared
 */
public record InputFiles(
    int all, int rejected, List<FileOutcome> firstRejected, List<Twin> twins) {

  /**
   * Counts the files.
   *
   * @param most how many are told of
   */
  static InputFiles of(TableSource tables, int most) {
    List<TableRow> ofStudents = tables.rows("files", Map.of("role", "student"));
    Map<String, List<TableRow>> byBytes = new HashMap<>();
    for (TableRow row : ofStudents) {
      if (isRead(row)) {
        byBytes.computeIfAbsent(row.text("sha256"), any -> new ArrayList<>()).add(row);
      }
    }
    int[] counts = new int[2];
    List<FileOutcome> rejected = new ArrayList<>();
    List<Twin> twins = new ArrayList<>();
    try (Stream<TableRow> rows =
        tables.stream(
            "files",
            List.of("role", "file", "solo_id", "sha256", "outcome", "reason"),
            Map.of("role", Set.of("corpus")))) {
      Stream.concat(rows, ofStudents.stream())
          .forEach(
              row -> {
                counts[0]++;
                if (!"read".equals(row.text("outcome"))) {
                  counts[1]++;
                  if (rejected.size() < most) {
                    rejected.add(FileOutcome.of(row));
                  }
                }
                if ("corpus".equals(row.text("role")) && isRead(row) && twins.size() < most) {
                  byBytes
                      .getOrDefault(row.text("sha256"), List.of())
                      .forEach(
                          own ->
                              twins.add(
                                  new Twin(
                                      row.text("file"), own.text("file"), own.text("solo_id"))));
                }
              });
    }
    return new InputFiles(counts[0], counts[1], List.copyOf(rejected), List.copyOf(twins));
  }

  private static boolean isRead(TableRow row) {
    return !row.isMissing("sha256") && !row.isMissing("solo_id");
  }
}
