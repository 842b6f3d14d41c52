package phrasecensus.spark;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import phrasecensus.store.parquet.ColumnScan;
import phrasecensus.tables.Grouping;

/** The solos of one part with their groups. */
final class GroupScan implements AutoCloseable {
  private final ColumnScan scan;
  private final List<String> columns;
  private final List<Grouping> by;
  private final List<String> wanted;

  private GroupScan(ColumnScan scan, List<String> columns, List<Grouping> by, List<String> wanted) {
    this.scan = scan;
    this.columns = columns;
    this.by = by;
    this.wanted = wanted;
  }

  /**
   * One solo.
   *
   * @param values of the columns asked for; null where empty
   * @param groups one for each grouping
   */
  record Solo(List<Object> values, ArrayList<String> groups) {
    /** The text of a column, by its place in what was asked for; null where empty. */
    String text(int place) {
      return (String) values.get(place);
    }

    /** The number of a column, by its place in what was asked for; null where empty. */
    Number number(int place) {
      return (Number) values.get(place);
    }
  }

  /**
   * @param by groupings, by columns of table solos
   * @param wanted columns that are wanted beside the groups
   */
  static GroupScan open(TableParts.Part part, List<Grouping> by, String... wanted)
      throws IOException {
    Set<String> columns = new LinkedHashSet<>(Arrays.asList(wanted));
    by.forEach(grouping -> columns.addAll(grouping.columns()));
    return new GroupScan(
        part.scan("solos", columns.toArray(String[]::new)),
        List.copyOf(columns),
        by,
        List.of(wanted));
  }

  /** The next solo; null after the last. */
  Solo next() throws IOException {
    Object[] row = scan.next();
    if (row == null) {
      return null;
    }
    ArrayList<String> groups = new ArrayList<>();
    for (Grouping grouping : by) {
      groups.add(grouping.group(column -> row[columns.indexOf(column)]));
    }
    return new Solo(
        Arrays.asList(wanted.stream().map(column -> row[columns.indexOf(column)]).toArray()),
        groups);
  }

  @Override
  public void close() throws IOException {
    scan.close();
  }
}
