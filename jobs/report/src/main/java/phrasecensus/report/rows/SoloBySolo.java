package phrasecensus.report.rows;

import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import phrasecensus.tables.InputException;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;

/**
 * The corpus's rows of a table as they pass by beside those of table {@code solos}: no more than
 * the rows of one solo are held.
 */
public final class SoloBySolo implements AutoCloseable {
  private static final String SOLO_ID = "solo_id";
  private static final String ROLE = "role";
  private static final String CORPUS = "corpus";

  private final String table;
  private final Stream<TableRow> rows;
  private final Iterator<TableRow> left;
  private TableRow next;

  private SoloBySolo(String table, Stream<TableRow> rows) {
    this.table = table;
    this.rows = rows;
    this.left = rows.iterator();
    step();
  }

  /**
   * Opens a table of reading that has a column {@code solo_id}.
   *
   * @param columns what is asked of the rows
   * @param column a column of texts
   * @param text which a row must have there
   * @throws InputException if the table is missing or cannot be read
   */
  public static SoloBySolo of(
      TableSource tables, String table, List<String> columns, String column, String text) {
    return of(tables, table, columns, column, Set.of(text));
  }

  /** The same with several texts, of which a row must have one. */
  public static SoloBySolo of(
      TableSource tables, String table, List<String> columns, String column, Set<String> texts) {
    List<String> all = new ArrayList<>(columns);
    all.add(SOLO_ID);
    return new SoloBySolo(
        table, tables.stream(table, all, Map.of(ROLE, Set.of(CORPUS), column, texts)));
  }

  /** The same with every row. */
  public static SoloBySolo of(TableSource tables, String table, List<String> columns) {
    List<String> all = new ArrayList<>(columns);
    all.add(SOLO_ID);
    return new SoloBySolo(table, tables.stream(table, all, Map.of(ROLE, Set.of(CORPUS))));
  }

  private void step() {
    next = left.hasNext() ? left.next() : null;
  }

  /** The rows of a solo; to be asked for the solos in the order of their table. */
  public List<TableRow> of(String soloId) {
    List<TableRow> own = new ArrayList<>();
    while (next != null && next.text(SOLO_ID).equals(soloId)) {
      own.add(next);
      step();
    }
    return own;
  }

  /**
   * Makes sure that every row belonged to a solo asked for.
   *
   * @throws InputException if some are left
   */
  public void end() {
    if (next != null) {
      throw new InputException(
          "Cannot use table "
              + table
              + ": its solos are not in the order of table solos, so another program wrote one of"
              + " the two or changed it. Run the study again.");
    }
  }

  @Override
  public void close() {
    rows.close();
  }
}
