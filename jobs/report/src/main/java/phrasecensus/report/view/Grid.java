package phrasecensus.report.view;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.report.wording.FileText;

/**
 * A table of text. The first column names the row.
 *
 * @param caption what the table holds
 * @param columns left to right
 * @param rows each as long as {@code columns}
 */
public record Grid(String caption, List<Column> columns, List<List<String>> rows) {
  public Grid {
    columns = List.copyOf(columns);
    rows = rows.stream().map(List::copyOf).toList();
  }

  /**
   * A column.
   *
   * @param numeric true to align its cells as numbers
   */
  public record Column(String name, boolean numeric) {}

  /** Starts a table. */
  public static Builder of(String caption) {
    return new Builder(caption);
  }

  public boolean isEmpty() {
    return rows.isEmpty();
  }

  /** True when it fits on a page with room to spare, so that a printer need not part it. */
  public boolean isShort() {
    return rows.size() <= 12;
  }

  /** Collects columns, then rows. */
  public static final class Builder {
    private final String caption;
    private final List<Column> columns = new ArrayList<>();
    private final List<List<String>> rows = new ArrayList<>();

    private Builder(String caption) {
      this.caption = caption;
    }

    /** Adds columns of words. */
    public Builder words(String... names) {
      for (String name : names) {
        columns.add(new Column(name, false));
      }
      return this;
    }

    /** Adds columns of numbers. */
    public Builder numbers(String... names) {
      for (String name : names) {
        columns.add(new Column(name, true));
      }
      return this;
    }

    /** Adds a row. */
    public Builder row(List<String> cells) {
      if (cells.size() != columns.size()) {
        throw new IllegalArgumentException(
            "Invalid row of table '" + caption + "': " + cells.size() + " cells");
      }
      rows.add(cells.stream().map(FileText::printable).toList());
      return this;
    }

    /** Adds a row. */
    public Builder row(String... cells) {
      return row(List.of(cells));
    }

    /** Rows so far. */
    public int size() {
      return rows.size();
    }

    public Grid build() {
      return new Grid(caption, columns, rows);
    }
  }
}
