package phrasecensus.report.rows;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import phrasecensus.tables.Among;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;
import phrasecensus.tables.TextColumn;
import phrasecensus.tables.row.FilesRow;
import phrasecensus.tables.row.ReadingOutcome;
import phrasecensus.tables.row.Role;

/**
 * The input files of a study, counted, and the first of those that there is something to tell of.
 *
 * @param all how many there were, read or not
 * @param rejected how many were not read
 * @param firstRejected the first of these, in the order of the table
 * @param lineless how many of the corpus were read and are no solos, without a pitched note
 * @param same corpus files that hold the same solo as an earlier one, the first by their paths
 * @param twins corpus files that are a student's too, the first by their paths: left out where that
 *     student is compared
 */
public record InputFiles(
    int all,
    int rejected,
    int lineless,
    List<FileOutcome> firstRejected,
    List<SameSolo> same,
    List<Twin> twins) {

  private static final Among CORPUS = FilesRow.ROLE.is(Role.CORPUS);

  /**
   * Counts the files.
   *
   * @param most how many are told of
   */
  static InputFiles of(TableSource tables, int most) {
    List<TableRow> ofStudents = tables.tableRows(FilesRow.TABLE, FilesRow.ROLE.is(Role.STUDENT));
    Map<String, List<TableRow>> byBytes = new HashMap<>();
    for (TableRow row : ofStudents) {
      if (isRead(row)) {
        byBytes.computeIfAbsent(row.get(FilesRow.SHA256), any -> new ArrayList<>()).add(row);
      }
    }
    int[] counts = new int[3];
    Digests digests = new Digests();
    List<FileOutcome> rejected = new ArrayList<>();
    List<Twin> twins = new ArrayList<>();
    try (Stream<TableRow> rows =
        tables.stream(
            FilesRow.TABLE,
            List.of(
                FilesRow.ROLE,
                FilesRow.FILE,
                FilesRow.SOLO_ID,
                FilesRow.SHA256,
                FilesRow.LINE_DIGEST,
                FilesRow.OUTCOME,
                FilesRow.REASON),
            CORPUS)) {
      Stream.concat(rows, ofStudents.stream())
          .forEach(
              row -> {
                counts[0]++;
                if (row.get(FilesRow.OUTCOME) != ReadingOutcome.READ) {
                  counts[1]++;
                  if (rejected.size() < most) {
                    rejected.add(FileOutcome.of(row));
                  }
                }
                boolean ofCorpus = row.get(FilesRow.ROLE) == Role.CORPUS;
                if (ofCorpus
                    && row.get(FilesRow.OUTCOME) == ReadingOutcome.READ
                    && row.get(FilesRow.SOLO_ID) == null) {
                  counts[2]++;
                }
                if (ofCorpus && isRead(row)) {
                  digests.add(row);
                }
                if (ofCorpus && isRead(row) && twins.size() < most) {
                  byBytes
                      .getOrDefault(row.get(FilesRow.SHA256), List.of())
                      .forEach(
                          own ->
                              twins.add(
                                  new Twin(
                                      row.get(FilesRow.FILE),
                                      own.get(FilesRow.FILE),
                                      own.get(FilesRow.SOLO_ID))));
                }
              });
    }
    return new InputFiles(
        counts[0],
        counts[1],
        counts[2],
        List.copyOf(rejected),
        digests.same(tables, most),
        List.copyOf(twins));
  }

  /**
   * Finds files with equal digests in two passes, so that names are held of those alone that have
   * one.
   */
  private static final class Digests {
    private final Set<Long> seen = new HashSet<>();
    private final Set<Long> repeated = new HashSet<>();

    void add(TableRow row) {
      note(row.get(FilesRow.SHA256));
      note(row.get(FilesRow.LINE_DIGEST));
    }

    private void note(String digest) {
      if (digest != null && !seen.add(number(digest))) {
        repeated.add(number(digest));
      }
    }

    /** Two digests with the same number cost a second look and nothing else. */
    private static long number(String digest) {
      long number = 0;
      for (int i = 0; i < digest.length(); i++) {
        number = 31 * number + digest.charAt(i);
      }
      return number;
    }

    List<SameSolo> same(TableSource tables, int most) {
      seen.clear();
      if (repeated.isEmpty()) {
        return List.of();
      }
      Map<String, String> first = new HashMap<>();
      List<SameSolo> same = new ArrayList<>();
      try (Stream<TableRow> rows =
          tables.stream(
              FilesRow.TABLE,
              List.of(
                  FilesRow.ROLE,
                  FilesRow.FILE,
                  FilesRow.SOLO_ID,
                  FilesRow.SHA256,
                  FilesRow.LINE_DIGEST),
              CORPUS)) {
        rows.filter(InputFiles::isRead)
            .takeWhile(row -> same.size() < most)
            .forEach(
                row -> {
                  String bytes = earlier(first, row, FilesRow.SHA256);
                  String line = earlier(first, row, FilesRow.LINE_DIGEST);
                  if (bytes != null || line != null) {
                    same.add(
                        new SameSolo(
                            row.get(FilesRow.FILE), bytes == null ? line : bytes, bytes != null));
                  }
                });
      }
      return List.copyOf(same);
    }

    private String earlier(Map<String, String> first, TableRow row, TextColumn<String> column) {
      String digest = row.get(column);
      return digest == null || !repeated.contains(number(digest))
          ? null
          : first.putIfAbsent(digest, row.get(FilesRow.FILE));
    }
  }

  private static boolean isRead(TableRow row) {
    return row.get(FilesRow.SHA256) != null && row.get(FilesRow.SOLO_ID) != null;
  }
}
