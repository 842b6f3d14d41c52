package phrasecensus.tables;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Which scores of a folder a study is about, by what its metadata say of them.
 *
 * @param wanted what a column must hold, by the column's name; a score is chosen when every column
 *     holds what is wanted. Empty for all scores
 */
public record MetadataChoice(Map<String, Wanted> wanted) {
  /** All scores of the folder. */
  public static final MetadataChoice ALL = new MetadataChoice(Map.of());

  /**
   * Column that every score has without a metadata file, unless that has one so called: the path of
   * the folder that the score lies in, from the folder of the study, with {@code /}; not there for
   * scores that lie in the study's folder itself.
   */
  public static final String FOLDER = "folder";

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Pattern NUMBER = Pattern.compile("[+-]?\\d{1,15}(\\.\\d{1,15})?");
  private static final Pattern DATE = Pattern.compile("\\d{4}-\\d{2}-\\d{2}");
  private static final int YEAR_DIGITS = 4;
  private static final Pattern YEAR = Pattern.compile("\\d{" + YEAR_DIGITS + "}");
  private static final Pattern ASKED = Pattern.compile("\\s*([^=]*[^=\\s])\\s*=\\s*(.*\\S)\\s*");
  private static final Pattern SPAN = Pattern.compile("([-+.\\d]*)\\.\\.([-+.\\d]*)");
  private static final int VALUES_SHOWN = 12;

  public MetadataChoice {
    wanted = Collections.unmodifiableMap(new TreeMap<>(wanted));
  }

  /**
   * What a column must hold: one of some values, or a number or date between two bounds, both
   * included. Bounds of four digits are years, too: a date lies between them where its year does.
   *
   * @param values as the metadata write them; empty where there are bounds
   * @param from least number, or first day as 2026-03-14; empty for no lower bound
   * @param to greatest number, or last day; empty for no upper bound
   */
  public record Wanted(List<String> values, String from, String to) {
    /**
     * @throws InputException if it wants nothing, or bounds are neither numbers nor dates, or the
     *     wrong way round
     */
    public Wanted {
      values = values.stream().map(String::strip).toList();
      from = from.strip();
      to = to.strip();
      if (values.stream().anyMatch(String::isEmpty)
          || values.isEmpty() && from.isEmpty() && to.isEmpty()) {
        throw new InputException(
            "a value is missing. Write values as '[swing, bebop]', bounds as '{from: 1940, to:"
                + " 1949}'.");
      }
      for (String bound : List.of(from, to)) {
        if (!bound.isEmpty() && !isNumber(bound) && !isDate(bound)) {
          throw new InputException(
              "'"
                  + bound
                  + "' is neither a number nor a date. Write it as '1940' or as '1940-03-14'.");
        }
      }
      if (!from.isEmpty() && !to.isEmpty()) {
        if (isDate(from) != isDate(to)) {
          throw new InputException(
              "one of '" + from + "' and '" + to + "' is a number and the other a date.");
        }
        if (compared(from, to) > 0) {
          throw new InputException("'" + from + "' comes after '" + to + "'. Turn them round.");
        }
      }
    }

    static Wanted between(String from, String to) {
      return new Wanted(List.of(), from, to);
    }

    /** Whether a cell holds it; an empty cell never does. */
    boolean accepts(String cell) {
      String value = cell == null ? "" : cell.strip();
      if (value.isEmpty()) {
        return false;
      }
      if (!values.isEmpty()) {
        return values.contains(value);
      }
      if (isYearOrNothing(from) && isYearOrNothing(to) && isDate(value)) {
        value = value.substring(0, YEAR_DIGITS);
      }
      boolean dates = isDate(from.isEmpty() ? to : from);
      if (dates ? !isDate(value) : !isNumber(value)) {
        return false;
      }
      return (from.isEmpty() || compared(value, from) >= 0)
          && (to.isEmpty() || compared(value, to) <= 0);
    }

    private static boolean isYearOrNothing(String bound) {
      return bound.isEmpty() || YEAR.matcher(bound).matches();
    }

    private static int compared(String one, String other) {
      return isDate(one)
          ? one.compareTo(other)
          : new BigDecimal(one).compareTo(new BigDecimal(other));
    }

    private String inWords() {
      if (!values.isEmpty()) {
        return values.size() == 1
            ? values.get(0)
            : String.join(", ", values.subList(0, values.size() - 1))
                + " or "
                + values.get(values.size() - 1);
      }
      return from.isEmpty() ? "at most " + to : to.isEmpty() ? "from " + from : from + " to " + to;
    }
  }

  /**
   * Reads what a command line asks for, each as {@code style=swing|bebop} or {@code
   * year=1940..1949}, where one bound may be missing.
   *
   * @throws InputException if one cannot be understood, or a column is asked for twice
   */
  public static MetadataChoice of(List<String> asked) {
    Map<String, Wanted> wanted = new LinkedHashMap<>();
    for (String one : asked) {
      Matcher parts = ASKED.matcher(one);
      if (!parts.matches()) {
        throw new InputException(
            "Cannot choose by '"
                + one
                + "'. Write a column and what it must hold, as in 'style=swing|bebop' or"
                + " 'year=1940..1949'.");
      }
      String column = Metadata.columnName(parts.group(1));
      Matcher span = SPAN.matcher(parts.group(2));
      Wanted must;
      try {
        must =
            span.matches()
                ? Wanted.between(span.group(1), span.group(2))
                : new Wanted(List.of(parts.group(2).split("\\|", -1)), "", "");
      } catch (InputException e) {
        throw new InputException("Cannot choose by '" + one + "': " + e.getMessage(), e);
      }
      if (wanted.put(column, must) != null) {
        throw new InputException(
            "Cannot choose by '"
                + one
                + "': that column is asked for twice. Give its values at once, as in"
                + " 'style=swing|bebop'.");
      }
    }
    return new MetadataChoice(wanted);
  }

  /** Whether every score is chosen. */
  public boolean isAll() {
    return wanted.isEmpty();
  }

  /**
   * Chooses among the scores of a folder.
   *
   * @param role what the scores are, for messages
   * @param files paths of the scores, in order
   * @param metadata what is known of them
   * @return those that are chosen, in their order
   * @throws InputException if there is no such column, a value that no score has, or no score left
   */
  public List<String> of(String role, List<String> files, Metadata metadata) {
    Function<String, Map<String, String>> known = metadata::of;
    for (Map.Entry<String, Wanted> one : wanted.entrySet()) {
      String column = one.getKey();
      if (!metadata.columns().contains(column)) {
        throw new InputException(
            "Cannot choose among the files of the "
                + role
                + " by '"
                + column
                + "': their metadata have no such column. "
                + (metadata.columns().isEmpty()
                    ? "Put a file solos.csv with a column 'file' and that one into the folder."
                    : "Did you mean '"
                        + StudyDefinition.nearest(column, metadata.columns())
                        + "'? Columns: "
                        + String.join(", ", metadata.columns())
                        + "."));
      }
      TreeSet<String> there = new TreeSet<>();
      files.forEach(
          file -> {
            String value = known.apply(file).get(column);
            if (value != null) {
              there.add(value.strip());
            }
          });
      for (String value : one.getValue().values()) {
        if (!there.contains(value)) {
          throw new InputException(
              "Cannot choose among the files of the "
                  + role
                  + ": none has '"
                  + value
                  + "' in its column '"
                  + column
                  + "'. "
                  + (there.isEmpty()
                      ? "The column is empty."
                      : "Did you mean '"
                          + StudyDefinition.nearest(value, List.copyOf(there))
                          + "'? It holds: "
                          + shown(there)
                          + "."));
        }
      }
    }
    List<String> chosen =
        files.stream()
            .filter(
                file ->
                    wanted.entrySet().stream()
                        .allMatch(
                            one -> one.getValue().accepts(known.apply(file).get(one.getKey()))))
            .toList();
    if (chosen.isEmpty() && !files.isEmpty()) {
      throw new InputException(
          "Cannot choose among the files of the "
              + role
              + ": none of "
              + files.size()
              + " has "
              + inWords()
              + ". Ask for less.");
    }
    return chosen;
  }

  private static String shown(TreeSet<String> values) {
    List<String> first = new ArrayList<>(values).subList(0, Math.min(values.size(), VALUES_SHOWN));
    return String.join(", ", first)
        + (values.size() > VALUES_SHOWN ? " and " + (values.size() - VALUES_SHOWN) + " more" : "");
  }

  /** What is wanted, as in {@code style: swing or bebop; year: 1940 to 1949}; empty for all. */
  public String inWords() {
    List<String> words = new ArrayList<>();
    wanted.forEach((column, must) -> words.add(column + ": " + must.inWords()));
    return String.join("; ", words);
  }

  /** One line of JSON that is the same for the same choice, for the record of a study. */
  public String text() {
    ObjectNode root = JSON.createObjectNode();
    wanted.forEach(
        (column, must) -> {
          if (must.values().isEmpty()) {
            ObjectNode bounds = root.putObject(column);
            if (!must.from().isEmpty()) {
              bounds.put("from", must.from());
            }
            if (!must.to().isEmpty()) {
              bounds.put("to", must.to());
            }
          } else {
            ArrayNode values = root.putArray(column);
            must.values().stream().sorted().distinct().forEach(values::add);
          }
        });
    try {
      return JSON.writeValueAsString(root);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("Cannot write a choice", e);
    }
  }

  /**
   * A record of {@link #text} in words.
   *
   * @throws InputException if it is none
   */
  public static String inWords(String text) {
    Map<String, Wanted> wanted = new LinkedHashMap<>();
    try {
      JSON.readTree(text)
          .properties()
          .forEach(
              one -> {
                List<String> values = new ArrayList<>();
                if (one.getValue().isArray()) {
                  one.getValue().forEach(value -> values.add(value.asText()));
                }
                wanted.put(
                    one.getKey(),
                    new Wanted(
                        values,
                        one.getValue().path("from").asText(""),
                        one.getValue().path("to").asText("")));
              });
    } catch (JsonProcessingException e) {
      throw new InputException("Cannot read the choice '" + text + "' of a study.", e);
    }
    return new MetadataChoice(wanted).inWords();
  }

  private static boolean isNumber(String text) {
    return NUMBER.matcher(text).matches();
  }

  private static boolean isDate(String text) {
    return DATE.matcher(text).matches();
  }
}
