package phrasecensus.report.find;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.MusicText;
import phrasecensus.report.wording.Numbers;
import phrasecensus.report.wording.Text;
import phrasecensus.tables.PhraseCondition;
import phrasecensus.tables.PhraseQuery;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;

/** What found phrases are called: {@code Two-bar phrases that end on the third}. */
public final class QueryTitle {
  private static final List<String> NUMBERS =
      List.of("One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight");

  private QueryTitle() {}

  /** The query's own title, else one made of its conditions. */
  public static String of(PhraseQuery query) {
    if (!query.title().isEmpty()) {
      return FileText.printable(query.title());
    }
    String start = Text.of("find.phrases");
    List<String> rest = new ArrayList<>();
    for (PhraseCondition condition : query.conditions()) {
      if (condition instanceof PhraseCondition.InRange range
          && range.name().equals("phrase_length_bars")
          && bars(range) > 0) {
        start = Text.of("find.bars", NUMBERS.get(bars(range) - 1));
      } else if (condition instanceof PhraseCondition.InRange range
          && range.name().equals("phrase_length_bars")
          && Double.isFinite(range.low())
          && Double.isFinite(range.high())
          && range.low() < range.high()) {
        Numbers numbers = new Numbers(Locale.ENGLISH);
        start =
            Text.of(
                "find.range",
                number(range.low(), numbers, null),
                number(range.high(), numbers, null));
      } else {
        rest.add(words(condition));
      }
    }
    return (start + " " + String.join(Text.of("find.and"), rest)).strip();
  }

  /** The whole number of bars that a range lies around; 0 for another range. */
  private static int bars(PhraseCondition.InRange range) {
    long middle = Math.round((range.low() + range.high()) / 2);
    boolean narrow =
        range.low() >= middle - 0.3 && range.high() <= middle + 0.3 && range.low() <= middle;
    return narrow && middle >= 1 && middle <= NUMBERS.size() ? (int) middle : 0;
  }

  private static String words(PhraseCondition condition) {
    if (condition instanceof PhraseCondition.LastNote last) {
      return Text.of(
          "find.last",
          last.degrees().stream()
              .map(
                  degree ->
                      Text.of(
                          "find.degree." + (isNamed(degree) ? degree : "other"),
                          MusicText.degree(degree)))
              .collect(Collectors.joining(Text.of("find.or"))));
    }
    if (condition instanceof PhraseCondition.InContext context) {
      String kind = Text.of("find.context." + context.kind());
      String where = context.mode().isEmpty() ? kind : Text.of("find.mode." + context.mode(), kind);
      return !context.ends()
          ? Text.of("find.over", where)
          : context.place().isEmpty()
              ? Text.of("find.ends", where)
              : Text.of("find.ends.place", MusicText.degree(context.place()), where);
    }
    if (condition instanceof PhraseCondition.Fits fits) {
      return Text.of("find.fits", FileText.printable(fits.instrument()));
    }
    if (condition instanceof PhraseCondition.OfSolo ofSolo) {
      return ofSolo.column().equals("performer")
          ? Text.of("find.player", FileText.printable(ofSolo.value()))
          : Text.of(
              "find.solo", FileText.printable(ofSolo.column()), FileText.printable(ofSolo.value()));
    }
    return words((PhraseCondition.InRange) condition);
  }

  private static boolean isNamed(String degree) {
    return List.of("1", "3", "b3", "5", "b7", "7").contains(degree);
  }

  private static String words(PhraseCondition.InRange range) {
    Numbers numbers = new Numbers(Locale.ENGLISH);
    switch (range.name()) {
      case "phrase_starts_with_pickup":
        if (range.low() == range.high()) {
          return Text.of(range.low() == 1 ? "find.pickup" : "find.pickup.none");
        }
        break;
      case "value_share_eighth":
        if (range.low() == 0.5 && range.high() > 1) {
          return Text.of("find.eighths");
        }
        break;
      case "phrase_ends_on_root",
      "phrase_ends_on_third",
      "phrase_ends_on_fifth",
      "phrase_ends_on_seventh":
        if (range.low() == 1) {
          return Text.of(
              "find.last", Text.of("find." + range.name().substring("phrase_ends_on_".length())));
        }
        break;
      case "difficulty":
        return Text.of("find.difficulty", bounds(range, numbers, null));
      case "tempo":
        return Text.of("find.tempo", bounds(range, numbers, null));
      default:
        break;
    }
    StatisticDefinition definition =
        StatisticsCatalogue.builtIn().named(range.name()).orElseThrow();
    return Text.of("find.statistic", definition.name(), bounds(range, numbers, definition));
  }

  private static String bounds(
      PhraseCondition.InRange range, Numbers numbers, StatisticDefinition definition) {
    boolean low = Double.isFinite(range.low());
    boolean high = Double.isFinite(range.high());
    if (low && high && range.low() == range.high()) {
      return number(range.low(), numbers, definition);
    }
    return low && high
        ? Text.of(
            "find.between",
            number(range.low(), numbers, definition),
            number(range.high(), numbers, definition))
        : low
            ? Text.of("find.least", number(range.low(), numbers, definition))
            : Text.of("find.most", number(range.high(), numbers, definition));
  }

  private static String number(double value, Numbers numbers, StatisticDefinition definition) {
    return definition == null
        ? numbers.decimal(value, value == Math.rint(value) ? 0 : 1)
        : numbers.ofPhrase(definition, value);
  }
}
