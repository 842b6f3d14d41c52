package phrasecensus.music.phrase;

import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.function.Function;
import phrasecensus.music.time.Fraction;

/** The phrase rules by name, each made from settings in words, as studies give them. */
public final class PhraseRules {
  private static final Map<String, Entry> ENTRIES = new LinkedHashMap<>();

  static {
    add(
        ByMaterialRule.DEFAULT,
        "breath, but for-songs for a song whose rests do not tell the phrases: with words and no"
            + " rest before most of its lines, or with hardly a rest and long notes in their"
            + " place.",
        numbers ->
            new ByMaterialRule(
                numbers.decimal("sung-share"),
                numbers.decimal("beats-a-rest"),
                numbers.decimal("notes-a-beat"),
                numbers.decimal("long-share"),
                new BreathRule(numbers.of(BreathRule.NAME, ByMaterialRule.BREATH).decimals()),
                new ForSongsRule(
                    groupingProgramme(numbers.of(ForSongsRule.NAME, ByMaterialRule.FOR_SONGS)))));
    add(
        BreathRule.DEFAULT,
        "Silence, onset gaps against their surroundings, interval, metre, sections and phrase"
            + " length, weighed as people mark phrases.",
        numbers -> new BreathRule(numbers.decimals()));
    add(
        ForSongsRule.DEFAULT,
        "For songs and folk tunes: grouping-programme with phrases of about nine notes that like to"
            + " begin at the same place in the bar.",
        numbers -> new ForSongsRule(groupingProgramme(numbers)));
    add(
        SilenceRule.DEFAULT,
        "A silence of enough beats, and if asked seconds, ends a phrase.",
        numbers ->
            new SilenceRule(numbers.fraction("minimum-beats"), numbers.decimal("minimum-seconds")));
    add(
        MarkedRule.DEFAULT,
        "The transcriber's slurs over groups, brackets, breath marks, caesuras and fermatas end"
            + " phrases; a score without any is taken by-material.",
        numbers -> new MarkedRule(numbers.whole("minimum-slur-notes")));
    add(
        LocalBoundaryRule.DEFAULT,
        "A phrase begins where pitch, onset gap and silence change most against their neighbours"
            + " (Cambouropoulos 2001).",
        numbers ->
            new LocalBoundaryRule(
                numbers.decimal("threshold"),
                numbers.decimal("pitch-weight"),
                numbers.decimal("onset-weight"),
                numbers.decimal("silence-weight"),
                numbers.decimal("scale-quantile")));
    add(
        GroupingProgrammeRule.DEFAULT,
        "Phrases of a likely number of notes that begin after large gaps, found together (after"
            + " Temperley 2001).",
        PhraseRules::groupingProgramme);
    add(
        GroupingPreferencesRule.DEFAULT,
        "A phrase begins where enough of silence, onset gap and interval are larger than before and"
            + " after (Lerdahl and Jackendoff 1983).",
        numbers -> new GroupingPreferencesRule(numbers.whole("least-support")));
  }

  private PhraseRules() {}

  private static GroupingProgrammeRule groupingProgramme(Numbers numbers) {
    return new GroupingProgrammeRule(
        numbers.decimal("preferred-notes"),
        numbers.decimal("length-weight"),
        numbers.decimal("metre-bonus"),
        numbers.whole("maximum-notes"));
  }

  /** Names of the rules, in the order in which they are best explained. */
  public static List<String> names() {
    return List.copyOf(ENTRIES.keySet());
  }

  /**
   * What a rule does, in one sentence.
   *
   * @throws IllegalArgumentException if there is no such rule
   */
  public static String description(String name) {
    return entry(name).description();
  }

  /**
   * A rule with its usual numbers.
   *
   * @throws IllegalArgumentException if there is no such rule
   */
  public static PhraseRule rule(String name) {
    return entry(name).usual();
  }

  /**
   * A rule with some numbers of one's own.
   *
   * @param settings by the names of {@link PhraseRule#settings()}; what is missing keeps its usual
   *     value. Numbers may be written {@code 3/4} or {@code 0.75}
   * @throws IllegalArgumentException if there is no such rule or setting, or a value is no number
   *     or out of range; the message names what is allowed
   */
  public static PhraseRule rule(String name, Map<String, String> settings) {
    Entry entry = entry(name);
    Map<String, String> all = new LinkedHashMap<>(entry.usual().settings());
    for (String setting : new TreeSet<>(settings.keySet())) {
      if (!all.containsKey(setting)) {
        throw new IllegalArgumentException(
            "Invalid setting of phrase rule "
                + name
                + ": "
                + setting
                + " is none of "
                + String.join(", ", all.keySet())
                + owner(setting));
      }
      all.put(setting, settings.get(setting));
    }
    return entry.maker().apply(new Numbers(name, all));
  }

  /**
   * A rule from one line of text: its name, then its numbers where they differ from the usual, as
   * in {@code silence minimum-beats=1}.
   *
   * @throws IllegalArgumentException as {@link #rule(String, Map)}, or if a word after the name is
   *     not of the form NAME=VALUE
   */
  public static PhraseRule parse(String text) {
    String[] words = text.strip().split("\\s+");
    Map<String, String> settings = new LinkedHashMap<>();
    for (int i = 1; i < words.length; i++) {
      int sign = words[i].indexOf('=');
      if (sign < 1) {
        throw new IllegalArgumentException(
            "Invalid phrase rule: in '" + text.strip() + "', " + words[i] + " is not NAME=VALUE");
      }
      settings.put(words[i].substring(0, sign), words[i].substring(sign + 1));
    }
    return rule(words[0], settings);
  }

  /** The line of text from which {@link #parse} makes a rule: the same for equal rules. */
  public static String text(PhraseRule rule) {
    StringBuilder text = new StringBuilder(rule.name());
    Entry entry = ENTRIES.get(rule.name());
    Map<String, String> usual = entry == null ? Map.of() : entry.usual().settings();
    rule.settings()
        .forEach(
            (name, value) -> {
              if (!value.equals(usual.get(name))) {
                text.append(' ').append(name).append('=').append(value);
              }
            });
    return text.toString();
  }

  /** The rule that has a setting, said in the end of a sentence; empty when none has it. */
  private static String owner(String setting) {
    return ENTRIES.entrySet().stream()
        .filter(entry -> entry.getValue().usual().settings().containsKey(setting))
        .findFirst()
        .map(entry -> "; it is a setting of the phrase rule " + entry.getKey())
        .orElse("");
  }

  private static Entry entry(String name) {
    Entry entry = ENTRIES.get(name);
    if (entry == null) {
      throw new IllegalArgumentException(
          "Invalid phrase rule: " + name + " is none of " + String.join(", ", ENTRIES.keySet()));
    }
    return entry;
  }

  private static void add(
      PhraseRule usual, String description, Function<Numbers, PhraseRule> maker) {
    ENTRIES.put(usual.name(), new Entry(usual, description, maker));
  }

  private record Entry(PhraseRule usual, String description, Function<Numbers, PhraseRule> maker) {}

  /** Settings in words, read as numbers. */
  private record Numbers(String rule, Map<String, String> settings) {
    /** Any number of at most this many digits fits a fraction. */
    private static final int MOST_DIGITS = 18;

    /** The settings of a rule among those of the one that chooses it. */
    Numbers of(String chosen, String prefix) {
      Map<String, String> its = new LinkedHashMap<>();
      settings.forEach(
          (name, value) -> {
            if (name.startsWith(prefix)) {
              its.put(name.substring(prefix.length()), value);
            }
          });
      return new Numbers(chosen, its);
    }

    Fraction fraction(String setting) {
      try {
        String text = text(setting);
        if (text.indexOf('/') >= 0) {
          return Fraction.parse(text);
        }
        BigDecimal decimal = new BigDecimal(text);
        if (Math.abs(decimal.scale()) > MOST_DIGITS || decimal.precision() > MOST_DIGITS) {
          throw notANumber(setting);
        }
        return decimal.scale() < 0
            ? Fraction.of(decimal.longValueExact())
            : Fraction.of(
                decimal.unscaledValue().longValueExact(),
                BigDecimal.TEN.pow(decimal.scale()).longValueExact());
      } catch (IllegalArgumentException | ArithmeticException e) {
        throw notANumber(setting);
      }
    }

    double decimal(String setting) {
      String text = text(setting);
      try {
        return text.indexOf('/') >= 0 ? fraction(setting).toDouble() : Double.parseDouble(text);
      } catch (NumberFormatException e) {
        throw notANumber(setting);
      }
    }

    Map<String, Double> decimals() {
      Map<String, Double> decimals = new LinkedHashMap<>();
      settings.keySet().forEach(setting -> decimals.put(setting, decimal(setting)));
      return decimals;
    }

    int whole(String setting) {
      Fraction value = fraction(setting);
      if (!value.isWhole() || value.numerator() != (int) value.numerator()) {
        throw new IllegalArgumentException(
            "Invalid "
                + setting
                + " of phrase rule "
                + rule
                + ": "
                + text(setting)
                + " is not a whole number");
      }
      return (int) value.numerator();
    }

    private String text(String setting) {
      return settings.get(setting);
    }

    private IllegalArgumentException notANumber(String setting) {
      return new IllegalArgumentException(
          "Invalid "
              + setting
              + " of phrase rule "
              + rule
              + ": "
              + text(setting)
              + " is not a number such as 0.75 or 3/4");
    }
  }
}
