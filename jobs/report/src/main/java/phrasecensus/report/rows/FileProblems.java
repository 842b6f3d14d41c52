package phrasecensus.report.rows;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.PriorityQueue;
import java.util.stream.Stream;
import phrasecensus.tables.Columns;
import phrasecensus.tables.ProblemKinds;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;
import phrasecensus.tables.row.ProblemsRow;

/**
 * The problems of one kind in one file.
 *
 * @param soloId null when the file was rejected or is no solo
 */
public record FileProblems(String role, String file, String soloId, ProblemKinds.Kind kind) {
  private static final List<Columns> COLUMNS =
      List.of(
          ProblemsRow.ROLE,
          ProblemsRow.FILE,
          ProblemsRow.SOLO_ID,
          ProblemsRow.PART,
          ProblemsRow.BAR,
          ProblemsRow.CODE,
          ProblemsRow.SEVERITY,
          ProblemsRow.FOUND,
          ProblemsRow.DONE);

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
    try (Stream<TableRow> rows = tables.stream(ProblemsRow.TABLE, COLUMNS)) {
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
      if (!file.equals(row.get(ProblemsRow.FILE))
          || !role.equals(row.get(ProblemsRow.ROLE).word())) {
        endFile();
        role = row.get(ProblemsRow.ROLE).word();
        file = row.get(ProblemsRow.FILE);
        soloId = row.get(ProblemsRow.SOLO_ID);
      }
      kinds.add(
          row.get(ProblemsRow.CODE),
          row.get(ProblemsRow.SEVERITY),
          row.get(ProblemsRow.PART),
          row.get(ProblemsRow.BAR),
          row.get(ProblemsRow.FOUND),
          row.get(ProblemsRow.DONE));
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
