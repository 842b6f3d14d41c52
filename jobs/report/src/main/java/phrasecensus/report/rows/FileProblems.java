package phrasecensus.report.rows;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;
import java.util.stream.Stream;
import phrasecensus.tables.ProblemKinds;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;

/**
 * The problems of one kind in one file.
 *
 * @param soloId null when the file was rejected or is no solo
 */
public record FileProblems(String role, String file, String soloId, ProblemKinds.Kind kind) {
  private static final List<String> COLUMNS =
      List.of("role", "file", "solo_id", "part", "bar", "code", "severity", "found", "done");

  private static final Comparator<FileProblems> WORST_FIRST =
      Comparator.comparing(FileProblems::kind, ProblemKinds.Kind.WORST_FIRST)
          .thenComparing(FileProblems::role)
          .thenComparing(FileProblems::file);

  /**
   * What is listed of the problems of a study.
   *
   * @param worst the worst, each kind once a file, in order
   * @param all how many there are, each kind once a file
   */
  public record Listed(List<FileProblems> worst, long all) {}

  /** Goes through the table of problems, in which those of a file stand together. */
  static Listed worst(TableSource tables, int most) {
    Finder finder = new Finder(most);
    try (Stream<TableRow> rows = tables.stream("problems", COLUMNS, Map.of())) {
      rows.forEach(finder::add);
    }
    finder.endFile();
    List<FileProblems> worst = new ArrayList<>(finder.worst);
    worst.sort(WORST_FIRST);
    return new Listed(worst, finder.all);
  }

  private static final class Finder {
    private final int most;

    /** The least bad of those that are kept comes first. */
    private final PriorityQueue<FileProblems> worst = new PriorityQueue<>(WORST_FIRST.reversed());

    private long all;
    private String role = "";
    private String file = "";
    private String soloId;
    private ProblemKinds kinds = new ProblemKinds();

    Finder(int most) {
      this.most = most;
    }

    void add(TableRow row) {
      if (!file.equals(row.text("file")) || !role.equals(row.text("role"))) {
        endFile();
        role = row.text("role");
        file = row.text("file");
        soloId = row.text("solo_id");
      }
      kinds.add(
          row.text("code"),
          row.integer("severity"),
          row.text("part"),
          row.text("bar"),
          row.text("found"),
          row.text("done"));
    }

    void endFile() {
      for (ProblemKinds.Kind kind : kinds.worstFirst()) {
        all++;
        worst.add(new FileProblems(role, file, soloId, kind));
        if (worst.size() > most) {
          worst.poll();
        }
      }
      kinds = new ProblemKinds();
    }
  }
}
