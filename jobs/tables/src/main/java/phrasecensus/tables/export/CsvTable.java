package phrasecensus.tables.export;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import phrasecensus.tables.Column;
import phrasecensus.tables.ColumnType;
import phrasecensus.tables.DecimalText;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;

/**
 * A table as CSV after RFC 4180: commas, quotation marks doubled inside quotation marks, lines
 * ended by CR LF, a header line.
 *
 * <ul>
 *   <li>A missing value is an empty field; an empty text is {@code ""}.
 *   <li>After every exact pair {@code X_num}, {@code X_den} stands the quotient {@code X} as a
 *       decimal, rounded to the nearest double.
 *   <li>Numbers have the fewest digits that give the same double back; yes and no are {@code TRUE}
 *       and {@code FALSE}, the only form that R takes for them; a list is a JSON array.
 *   <li>A text that a spreadsheet could take for a formula gets an apostrophe in front, and so does
 *       a text that begins with an apostrophe. To have every text as it was, take the first
 *       character off those that begin with an apostrophe.
 * </ul>
 */
public final class CsvTable {
  /** How lines end, after RFC 4180. */
  public static final String LINE_END = "\r\n";

  /**
   * Spreadsheets begin a formula with one of these, some also with their full-width forms, and some
   * pass over white space first; a text that begins with a tab or a line break is split by others.
   */
  private static final Pattern TAKEN_FOR_FORMULA =
      Pattern.compile("^(?:'|[\\t\\r\\n]|[\\s\\u00A0]*[=+\\-@\\uFF1D\\uFF0B\\uFF0D\\uFF20])");

  private static final String NUMERATOR = "_num";
  private static final String DENOMINATOR = "_den";

  private final List<Column> columns;
  private final int[] places;
  private final int[] denominators;
  private final StringBuilder line = new StringBuilder(512);
  private final Appendable into;

  /**
   * Starts a table with its header line.
   *
   * @param schema columns of the rows that will come
   * @param into takes the text
   */
  public CsvTable(TableSchema schema, Appendable into) throws IOException {
    this.into = into;
    this.columns = columns(schema);
    this.places = new int[columns.size()];
    this.denominators = new int[columns.size()];
    for (int i = 0; i < places.length; i++) {
      String name = columns.get(i).name();
      boolean written = schema.has(name);
      places[i] = schema.place(written ? name : name + NUMERATOR);
      denominators[i] = written ? -1 : schema.place(name + DENOMINATOR);
    }
    header();
  }

  /**
   * The columns of the CSV form: those of the table, and after each pair of numerator and
   * denominator their quotient.
   */
  public static List<Column> columns(TableSchema schema) {
    List<Column> columns = new ArrayList<>();
    for (Column column : schema.columns()) {
      columns.add(column);
      String stem = stem(column.name());
      if (stem != null && schema.has(stem + NUMERATOR) && !schema.has(stem)) {
        columns.add(
            new Column(
                stem,
                ColumnType.DOUBLE,
                column.nullable(),
                stem + NUMERATOR + " / " + stem + DENOMINATOR + ", rounded to a decimal",
                schema.columns().get(schema.place(stem + NUMERATOR)).unit(),
                "0.5"));
      }
    }
    return List.copyOf(columns);
  }

  private static String stem(String name) {
    return name.endsWith(DENOMINATOR)
        ? name.substring(0, name.length() - DENOMINATOR.length())
        : null;
  }

  private void header() throws IOException {
    for (int i = 0; i < columns.size(); i++) {
      separate(i);
      text(columns.get(i).name());
    }
    end();
  }

  /** Writes a row of the table. */
  public void write(TableRow row) throws IOException {
    for (int i = 0; i < places.length; i++) {
      separate(i);
      Object value = row.value(places[i]);
      if (value != null && denominators[i] >= 0) {
        long denominator = (Long) row.value(denominators[i]);
        value = (double) (Long) value / denominator;
      }
      add(value);
    }
    end();
  }

  private void separate(int place) {
    if (place > 0) {
      line.append(',');
    }
  }

  private void end() throws IOException {
    into.append(line.append(LINE_END));
    line.setLength(0);
  }

  private void add(Object value) {
    if (value instanceof String text) {
      text(safe(text));
    } else if (value instanceof Double number) {
      line.append(DecimalText.of(number));
    } else if (value instanceof List<?> elements) {
      text(json(elements));
    } else if (value instanceof Boolean flag) {
      line.append(flag ? "TRUE" : "FALSE");
    } else if (value != null) {
      line.append(value);
    }
  }

  private void text(String text) {
    if (!needsQuotes(text)) {
      line.append(text);
      return;
    }
    line.append('"');
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c == '"') {
        line.append('"');
      }
      line.append(c);
    }
    line.append('"');
  }

  /** RFC 4180 demands quotes for the first four; for the rest they keep readers from trimming. */
  private static boolean needsQuotes(String text) {
    if (text.isEmpty()) {
      return true;
    }
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c == ',' || c == '"' || c == '\r' || c == '\n' || c == '\t' || c == '#' || c == ';') {
        return true;
      }
    }
    return Character.isWhitespace(text.charAt(0))
        || Character.isWhitespace(text.charAt(text.length() - 1));
  }

  /** The text with an apostrophe in front where a spreadsheet could take it for a formula. */
  static String safe(String text) {
    return TAKEN_FOR_FORMULA.matcher(text).find() ? "'" + text : text;
  }

  private static String json(List<?> elements) {
    StringBuilder array = new StringBuilder("[");
    for (int i = 0; i < elements.size(); i++) {
      if (i > 0) {
        array.append(',');
      }
      if (elements.get(i) instanceof String text) {
        quote(text, array);
      } else {
        array.append(elements.get(i));
      }
    }
    return array.append(']').toString();
  }

  private static void quote(String text, StringBuilder into) {
    into.append('"');
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c == '"' || c == '\\') {
        into.append('\\').append(c);
      } else if (c < ' ') {
        into.append(String.format(java.util.Locale.ROOT, "\\u%04x", (int) c));
      } else {
        into.append(c);
      }
    }
    into.append('"');
  }
}
