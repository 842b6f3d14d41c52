package phrasecensus.report.rows;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import java.util.stream.Stream;
import phrasecensus.tables.Among;
import phrasecensus.tables.Columns;
import phrasecensus.tables.InputException;
import phrasecensus.tables.Table;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;
import phrasecensus.tables.TextColumn;
import phrasecensus.tables.row.Role;

/**
 * The corpus's rows of a table as they pass by beside those of table {@code solos}: no more than
 * the rows of one solo are held.
 */
public final class SoloBySolo implements AutoCloseable {
  private final Table<?> table;
  private final TextColumn<String> soloId;
  private final Stream<TableRow> rows;
  private final Iterator<TableRow> left;
  private TableRow next;

  private SoloBySolo(Table<?> table, TextColumn<String> soloId, Stream<TableRow> rows) {
    this.table = table;
    this.soloId = soloId;
    this.rows = rows;
    this.left = rows.iterator();
    step();
  }

  /**
   * Opens a table of reading.
   *
   * @param soloId its column of solos
   * @param role its column of roles
   * @param columns what is asked of the rows
   * @param among every one of which a row must meet
   * @throws InputException if the table is missing or cannot be read
   */
  public static SoloBySolo of(
      TableSource tables,
      Table<?> table,
      TextColumn<String> soloId,
      TextColumn<Role> role,
      List<? extends Columns> columns,
      Among... among) {
    List<Columns> all = new ArrayList<>(columns);
    all.add(soloId);
    Among[] asked = Arrays.copyOf(among, among.length + 1);
    asked[among.length] = role.is(Role.CORPUS);
    return new SoloBySolo(table, soloId, tables.stream(table, all, asked));
  }

  private void step() {
    next = left.hasNext() ? left.next() : null;
  }

  /** The rows of a solo; to be asked for the solos in the order of their table. */
  public List<TableRow> of(String soloId) {
    List<TableRow> own = new ArrayList<>();
    while (next != null && next.get(this.soloId).equals(soloId)) {
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
