package phrasecensus.tables;

import java.io.Serializable;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * How solos are sorted into groups: by the values of a column, by bands of a column of numbers, or
 * by several of these crossed.
 *
 * @param parts what is crossed; one for a plain column
 */
public record Grouping(List<Part> parts) implements Serializable {
  /** The group of solos whose column is empty. */
  public static final String NO_VALUE = "(none)";

  /**
   * The group of solos whose column holds something else than a number, where bands are asked for.
   */
  public static final String NO_NUMBER = "(no number)";

  /** The group of solos whose number lies in none of the bands. */
  public static final String OUTSIDE = "(outside the bands)";

  private static final Set<String> LEFTOVERS = Set.of(NO_VALUE, NO_NUMBER, OUTSIDE);
  private static final String CROSS = " x ";
  private static final Pattern NUMBER = Pattern.compile("[+-]?\\d{1,15}(\\.\\d{1,15})?");
  private static final Pattern BANDED = Pattern.compile("(.*\\S)\\s+in(\\s+[-+\\d].*)");

  public Grouping {
    parts = List.copyOf(parts);
  }

  /**
   * One column of a grouping.
   *
   * @param column its name
   * @param edges of the bands in ascending order, at least two; empty to group by the value itself.
   *     A band holds its lower edge, and the last one its upper edge too
   */
  public record Part(String column, List<BigDecimal> edges) implements Serializable {
    /**
     * @throws InputException if the edges are too few or not in ascending order
     */
    public Part {
      edges = List.copyOf(edges);
      if (edges.size() == 1) {
        throw new InputException(
            "Cannot group by bands of '"
                + column
                + "': one edge makes no band. Give two or more, as in [0, 120, 180, 400].");
      }
      for (int i = 1; i < edges.size(); i++) {
        if (edges.get(i - 1).compareTo(edges.get(i)) >= 0) {
          throw new InputException(
              "Cannot group by bands of '"
                  + column
                  + "': the edges "
                  + edges.get(i - 1).toPlainString()
                  + " and "
                  + edges.get(i).toPlainString()
                  + " are not in ascending order.");
        }
      }
    }

    public boolean isBanded() {
      return !edges.isEmpty();
    }

    /** The names of the bands, from the lowest up. */
    public List<String> bands() {
      List<String> bands = new ArrayList<>();
      for (int i = 1; i < edges.size(); i++) {
        bands.add(
            edges.get(i - 1).toPlainString()
                + (i == edges.size() - 1 ? " to " : " to below ")
                + edges.get(i).toPlainString());
      }
      return bands;
    }

    private String group(Object value) {
      if (value == null) {
        return NO_VALUE;
      }
      if (!isBanded()) {
        return TableRow.words(value);
      }
      String text = value.toString().strip();
      BigDecimal number =
          value instanceof Double measured
              ? BigDecimal.valueOf(measured)
              : NUMBER.matcher(text).matches() ? new BigDecimal(text) : null;
      if (number == null) {
        return NO_NUMBER;
      }
      List<String> bands = bands();
      for (int i = 0; i < bands.size(); i++) {
        int upper = number.compareTo(edges.get(i + 1));
        if (number.compareTo(edges.get(i)) >= 0
            && (upper < 0 || upper == 0 && i == bands.size() - 1)) {
          return bands.get(i);
        }
      }
      return OUTSIDE;
    }

    private String text() {
      StringBuilder text = new StringBuilder(column);
      if (isBanded()) {
        text.append(" in");
        edges.forEach(edge -> text.append(' ').append(edge.toPlainString()));
      }
      return text.toString();
    }
  }

  /**
   * Reads a grouping as {@link #text} writes it: {@code style}, {@code tempo_qpm in 0 120 180 400},
   * {@code style x instrument}.
   *
   * @throws InputException if it names no column, or edges are no numbers or not in order
   */
  public static Grouping parse(String text) {
    List<Part> parts = new ArrayList<>();
    for (String one : text.strip().split(CROSS, -1)) {
      Matcher banded = BANDED.matcher(one.strip());
      Part part =
          banded.matches()
              ? new Part(banded.group(1), edges(banded.group(1), banded.group(2)))
              : new Part(one.strip(), List.of());
      if (part.column().isEmpty()) {
        throw new InputException(
            "Cannot group by '" + text.strip() + "': a column name is missing.");
      }
      parts.add(part);
    }
    return new Grouping(parts);
  }

  private static List<BigDecimal> edges(String column, String text) {
    List<BigDecimal> edges = new ArrayList<>();
    for (String edge : text.strip().split("\\s+")) {
      edges.add(edge(column, edge));
    }
    return edges;
  }

  /**
   * Reads the edge of a band.
   *
   * @throws InputException if it is no number
   */
  public static BigDecimal edge(String column, String text) {
    if (!NUMBER.matcher(text).matches()) {
      throw new InputException(
          "Cannot group by bands of '"
              + column
              + "': the edge '"
              + text
              + "' is no number. Write the edges as in [0, 120, 180, 400].");
    }
    return new BigDecimal(text);
  }

  /** The same grouping with other names of columns. */
  public Grouping named(Function<String, String> column) {
    return new Grouping(
        parts.stream().map(part -> new Part(column.apply(part.column()), part.edges())).toList());
  }

  /** What tables call it: the columns, crossed ones joined by {@code x}. */
  public String name() {
    return String.join(CROSS, columns());
  }

  public List<String> columns() {
    return parts.stream().map(Part::column).toList();
  }

  /** Everything there is to know, on one line; {@link #parse} reads it back. */
  public String text() {
    return String.join(CROSS, parts.stream().map(Part::text).toList());
  }

  /**
   * The group of a solo.
   *
   * @param value of a column: text, number, day, or null where empty
   * @return never null
   */
  public String group(Function<String, Object> value) {
    List<String> groups = new ArrayList<>();
    for (Part part : parts) {
      String group = part.group(value.apply(part.column()));
      if (isLeftover(group)) {
        return group;
      }
      groups.add(group);
    }
    return String.join(" / ", groups);
  }

  /** True for the group of solos that fit in no other. */
  public static boolean isLeftover(String group) {
    return LEFTOVERS.contains(group);
  }
}
