package phrasecensus.tables;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/**
 * One thing that a phrase must have, as people write it: {@code phrase_length_bars 1.75..2.25},
 * {@code last-note 3,b7}, {@code over ii-V-I major}, {@code style=bebop}.
 */
public sealed interface PhraseCondition {
  /** Kinds of harmonic contexts, as in table {@code contexts}. */
  List<String> CONTEXTS =
      List.of(
          "ii-V",
          "ii-V-I",
          "I-vi-ii-V",
          "turnaround",
          "blues-bars-1-4",
          "blues-bars-5-8",
          "blues-bars-9-12",
          "vamp");

  /** Chord tones that the last note may be named by, whatever they are over the chord at hand. */
  List<String> CHORD_TONES = List.of("root", "third", "fifth", "seventh");

  /** How every form of condition is written, for a message. */
  String FORMS =
      "'bars 2', 'pickup', 'mostly-eighths', 'last-note third', 'last-note b7,9', 'over ii-V-I"
          + " major', 'ends-over ii-V-I major V', 'difficulty 3', 'fits trumpet', 'tempo 120..200',"
          + " 'COLUMN=VALUE' or a statistic of phrases with its range, as in 'notes_per_beat 1..2'";

  /** The condition as it was written, blanks evened out. */
  String text();

  /**
   * A number of the phrase lies in a range, its ends included.
   *
   * @param name {@code tempo}, {@code difficulty}, or the key of a statistic of phrases
   * @param low least value; negative infinity for none
   * @param high largest value; positive infinity for none
   */
  record InRange(String text, String name, double low, double high) implements PhraseCondition {
    /** True when the name is a column of table {@code phrases} and no statistic. */
    public boolean isColumn() {
      return name.equals("tempo") || name.equals("difficulty");
    }
  }

  /** The last note is one of these degrees over its chord, as in {@code b7}. */
  record LastNote(String text, List<String> degrees) implements PhraseCondition {
    public LastNote {
      degrees = List.copyOf(degrees);
    }
  }

  /**
   * The phrase lies over a harmonic context, or ends in one.
   *
   * @param ends true where only its last note counts
   * @param mode major, minor or blues; empty for any
   * @param place the chord that it ends over, as in {@code V}; empty for any
   */
  record InContext(String text, boolean ends, String kind, String mode, String place)
      implements PhraseCondition {}

  /** All notes lie in the usual range of an instrument, in one octave or another. */
  record Fits(String text, String instrument) implements PhraseCondition {}

  /** A column of table {@code solos} has a value. */
  record OfSolo(String text, String column, String value) implements PhraseCondition {}

  /**
   * Reads a condition.
   *
   * @throws InputException if it means nothing, saying what could be meant
   */
  static PhraseCondition parse(String written) {
    String text = written.strip().replaceAll("\\s+", " ");
    int equals = text.indexOf('=');
    if (equals > 0 && equals < text.length() - 1) {
      String column = text.substring(0, equals).strip();
      return new OfSolo(
          text,
          column.equals("player") ? "performer" : Metadata.columnName(column),
          text.substring(equals + 1).strip());
    }
    int blank = text.indexOf(' ');
    String name = blank < 0 ? text : text.substring(0, blank);
    String rest = blank < 0 ? "" : text.substring(blank + 1);
    return switch (name) {
      case "pickup" -> range(text, "phrase_starts_with_pickup", rest.isEmpty() ? "1" : rest, 0);
      case "mostly-eighths" ->
          range(text, "value_share_eighth", rest.isEmpty() ? "0.5.." : rest, 0);
      case "bars" -> range(text, "phrase_length_bars", rest, 0.25);
      case "difficulty" -> range(text, name, rest.contains("..") ? rest : ".." + rest, 0);
      case "tempo" -> range(text, name, rest, 0);
      case "last-note" -> lastNote(text, rest);
      case "over" -> context(text, false, rest);
      case "ends-over" -> context(text, true, rest);
      case "fits" -> {
        if (rest.isEmpty()) {
          throw wrong(text, "it names no instrument. Say 'fits trumpet'");
        }
        yield new Fits(text, rest);
      }
      default -> statistic(text, name, rest);
    };
  }

  private static PhraseCondition statistic(String text, String name, String rest) {
    boolean known =
        StatisticsCatalogue.builtIn()
            .named(name)
            .filter(definition -> definition.levels().contains("phrase"))
            .isPresent();
    if (!known) {
      throw wrong(
          text,
          "'" + name + "' is no statistic of phrases (schemas/README.md has all). Say " + FORMS);
    }
    return range(text, name, rest, 0);
  }

  /**
   * @param around what a single number allows to either side
   */
  private static PhraseCondition range(String text, String name, String range, double around) {
    int dots = range.indexOf("..");
    String low = dots < 0 ? range : range.substring(0, dots);
    String high = dots < 0 ? range : range.substring(dots + 2);
    if (low.isBlank() && high.isBlank()) {
      throw wrong(text, "it has no range. Say '" + name + " 1..2', '1..', '..2' or one number");
    }
    double least = low.isBlank() ? Double.NEGATIVE_INFINITY : number(text, low);
    double most = high.isBlank() ? Double.POSITIVE_INFINITY : number(text, high);
    if (dots < 0) {
      least -= around;
      most += around;
    }
    if (least > most) {
      throw wrong(text, "its first number is larger than its second. Say the smaller one first");
    }
    return new InRange(text, name, least, most);
  }

  private static double number(String text, String number) {
    try {
      double value = Double.parseDouble(number.strip());
      if (Double.isFinite(value)) {
        return value;
      }
    } catch (NumberFormatException e) {
      // Told below, together with what is no finite number.
    }
    throw wrong(text, "'" + number.strip() + "' is no number. Say a range, as in '1..2.5'");
  }

  private static PhraseCondition lastNote(String text, String rest) {
    if (CHORD_TONES.contains(rest)) {
      return range(text, "phrase_ends_on_" + rest, "1", 0);
    }
    List<String> degrees =
        Arrays.stream(rest.split("[ ,]+"))
            .map(degree -> degree.replace('\u266d', 'b').replace('\u266f', '#'))
            .filter(degree -> !degree.isEmpty())
            .toList();
    if (degrees.isEmpty() || degrees.stream().anyMatch(d -> !d.matches("(bb?|#|n)?[0-9]{1,2}"))) {
      throw wrong(
          text, "it names no degree over a chord. Say 'last-note third', or 'last-note b7,9'");
    }
    return new LastNote(text, degrees);
  }

  private static PhraseCondition context(String text, boolean ends, String rest) {
    List<String> words = new ArrayList<>(List.of(rest.split(" ")));
    String kind = words.remove(0);
    String known =
        CONTEXTS.stream()
            .filter(each -> each.equalsIgnoreCase(kind))
            .findFirst()
            .orElseThrow(
                () ->
                    wrong(
                        text,
                        "'"
                            + kind
                            + "' is no harmonic context. There is "
                            + String.join(", ", CONTEXTS)));
    String mode = "";
    String place = "";
    for (String word : words) {
      if (List.of("major", "minor", "blues").contains(word.toLowerCase(Locale.ROOT))) {
        mode = word.toLowerCase(Locale.ROOT);
      } else if (ends && word.matches("[b#]?(I|II|III|IV|V|VI|VII|ii|iii|vi)")) {
        place = word;
      } else {
        throw wrong(
            text,
            "'"
                + word
                + "' is unclear. After the context say major, minor or blues"
                + (ends ? ", then the chord, as in 'ends-over ii-V-I major V'" : ""));
      }
    }
    return new InContext(text, ends, known, mode, place);
  }

  private static InputException wrong(String text, String why) {
    return new InputException("Cannot use the condition '" + text + "': " + why + ".");
  }
}
