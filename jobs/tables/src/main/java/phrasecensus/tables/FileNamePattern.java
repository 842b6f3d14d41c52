package phrasecensus.tables;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What the names of students' files say, by a pattern of the fields {@code {student}}, {@code
 * {date}} and {@code {title}} with something between them, as in {@code {student}_{date}_{title}}
 * for {@code ada_2026-05-01_blues.musicxml}. Dates are written 2026-05-01 or 20260501. In a folder
 * of the student's own the student may be left out of the name.
 */
public final class FileNamePattern {
  /** The pattern that holds where a study sets none. */
  public static final String USUAL = "{student}_{date}_{title}";

  /** In place of a pattern: names say nothing. */
  public static final String NONE = "none";

  private static final List<String> FIELDS = List.of("student", "date", "title");
  private static final Pattern FIELD = Pattern.compile("\\{(\\w+)\\}");
  private static final String DATE = "\\d{4}-\\d{2}-\\d{2}|\\d{8}";

  private final String text;
  private final List<String> fields = new ArrayList<>();
  private final List<String> between = new ArrayList<>();

  private FileNamePattern(String text) {
    this.text = text;
  }

  /**
   * What a name says.
   *
   * @param values of the fields that it has
   * @param remark a sentence on a name that fits the pattern half; null for any other
   */
  public record Match(Map<String, String> values, String remark) {}

  /**
   * Reads a pattern.
   *
   * @throws IllegalArgumentException saying what is wrong with it
   */
  public static FileNamePattern of(String text) {
    FileNamePattern pattern = new FileNamePattern(text);
    if (text.equals(NONE)) {
      return pattern;
    }
    Matcher field = FIELD.matcher(text);
    int end = 0;
    while (field.find()) {
      String name = field.group(1);
      if (!FIELDS.contains(name) || pattern.fields.contains(name)) {
        throw new IllegalArgumentException(
            pattern.fields.contains(name)
                ? "it has {" + name + "} twice"
                : "it has {" + name + "}, and the fields are {student}, {date} and {title}");
      }
      String before = text.substring(end, field.start());
      if (before.isEmpty() && !pattern.fields.isEmpty()) {
        throw new IllegalArgumentException("nothing stands between two of its fields");
      }
      pattern.fields.add(name);
      pattern.between.add(before);
      end = field.end();
    }
    if (pattern.fields.isEmpty()) {
      throw new IllegalArgumentException("it has none of {student}, {date} and {title}");
    }
    pattern.between.add(text.substring(end));
    return pattern;
  }

  /**
   * What the name of a file says.
   *
   * @param file path in the students' folder, with {@code /}
   */
  public Match match(String file) {
    if (fields.isEmpty()) {
      return new Match(Map.of(), null);
    }
    String name = Metadata.withoutExtension(file.substring(file.lastIndexOf('/') + 1));
    Match whole = match(file, name, 0);
    if (whole != null) {
      return whole;
    }
    if (file.contains("/") && fields.get(0).equals("student") && fields.size() > 1) {
      Match inFolder = match(file, name, 1);
      if (inFolder != null) {
        return inFolder;
      }
    }
    return new Match(Map.of(), half(file, name));
  }

  /** Null where the name does not fit; the sentence of a date that is none. */
  private Match match(String file, String name, int from) {
    StringBuilder regex = new StringBuilder(from == 0 ? Pattern.quote(between.get(0)) : "");
    for (int i = from; i < fields.size(); i++) {
      boolean last = i + 1 == fields.size();
      regex
          .append('(')
          .append(fields.get(i).equals("date") ? DATE : last ? ".+" : ".+?")
          .append(')')
          .append(Pattern.quote(between.get(i + 1)));
    }
    Matcher matcher = Pattern.compile(regex.toString()).matcher(name);
    if (!matcher.matches()) {
      return null;
    }
    Map<String, String> values = new TreeMap<>();
    for (int i = from; i < fields.size(); i++) {
      String value = matcher.group(i - from + 1).strip();
      if (fields.get(i).equals("date")) {
        String date = date(value);
        if (date == null) {
          return new Match(Map.of(), sentence(file, "'" + value + "' is no day of the calendar"));
        }
        value = date;
      } else if (fields.get(i).equals("title")) {
        value = value.replaceAll("[_-]+", " ").strip();
      } else {
        value = value.replace('_', ' ').strip();
      }
      if (!value.isEmpty()) {
        values.put(fields.get(i), value);
      }
    }
    return new Match(values, null);
  }

  private static String date(String text) {
    String iso =
        text.length() == 8
            ? text.substring(0, 4) + "-" + text.substring(4, 6) + "-" + text.substring(6)
            : text;
    try {
      return LocalDate.parse(iso).toString();
    } catch (DateTimeParseException e) {
      return null;
    }
  }

  /**
   * A sentence where a name has as many parts as the pattern, or a date, and still does not fit.
   */
  private String half(String file, String name) {
    int place = fields.indexOf("date");
    if (place < 0 || fields.size() < 2) {
      return null;
    }
    boolean hasDate = Pattern.compile("(?<!\\d)(" + DATE + ")(?!\\d)").matcher(name).find();
    String separator = between.get(place == 0 ? 1 : place);
    String[] parts = name.split(Pattern.quote(separator), fields.size());
    boolean looksLikeDate =
        parts.length == fields.size() && parts[place].matches("\\d{1,4}[-. ]\\d{1,2}[-. ]\\d{1,4}");
    if (looksLikeDate) {
      return sentence(file, "'" + parts[place] + "' is no date as 2026-05-01");
    }
    return hasDate && name.contains(separator)
        ? sentence(file, "it has a date, and not all of " + String.join(", ", fields))
        : null;
  }

  private String sentence(String file, String why) {
    return "The file name '"
        + file
        + "' fits the pattern "
        + text
        + " by half: "
        + why
        + ". Nothing is taken from it; rename the file or say it in the metadata.";
  }
}
