package phrasecensus.report.wording;

import java.math.RoundingMode;
import java.text.DecimalFormat;
import java.text.DecimalFormatSymbols;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeParseException;
import java.time.format.FormatStyle;
import java.util.Locale;
import java.util.Optional;
import phrasecensus.report.rows.Interval;
import phrasecensus.tables.StatisticDefinition;

/** Numbers and dates as a reader of a locale expects them, values with the catalogue's decimals. */
public final class Numbers {
  /** Keeps a number and its unit on one line. */
  private static final String NO_BREAK = "\u00a0";

  private final Locale locale;

  private static final int MOST_MORE_DECIMALS = 3;

  public Numbers(Locale locale) {
    this.locale = locale;
  }

  /** A number with a fixed count of decimals, halves rounded up. */
  public String decimal(double value, int decimals) {
    DecimalFormat format =
        new DecimalFormat(
            decimals == 0 ? "#,##0" : "#,##0." + "0".repeat(decimals),
            DecimalFormatSymbols.getInstance(locale));
    format.setRoundingMode(RoundingMode.HALF_UP);
    String text = format.format(value);
    String zero = format.format(0.0);
    return text.equals("-" + zero) ? zero : text;
  }

  /** A count. */
  public String count(long count) {
    return decimal((double) count, 0);
  }

  /** A share as a percentage without decimals. */
  public String percent(double share) {
    return decimal(100 * share, 0) + NO_BREAK + "%";
  }

  /** A value with the catalogue's decimals; a percentage carries its sign, others no unit. */
  public String bare(StatisticDefinition definition, double value) {
    return bare(definition, value, 0);
  }

  private String bare(StatisticDefinition definition, double value, int more) {
    return definition.percent()
        ? decimal(100 * value, definition.decimals() + more) + NO_BREAK + "%"
        : decimal(value, definition.decimals() + more);
  }

  /** A value with its unit in words. */
  public String withUnit(StatisticDefinition definition, double value) {
    return withUnit(definition, value, 0);
  }

  /**
   * A value with its unit in words.
   *
   * @param more decimals beyond the catalogue's, where fewer would hide a difference
   */
  public String withUnit(StatisticDefinition definition, double value, int more) {
    return bare(definition, value, more) + unit(definition);
  }

  /** A value of one phrase with its unit: without decimals where it is a whole number. */
  public String ofPhrase(StatisticDefinition definition, double value) {
    return !definition.percent() && value == Math.rint(value)
        ? decimal(value, 0) + unit(definition)
        : withUnit(definition, value);
  }

  /** A stretch of values with the unit once: {@code 1.80 to 2.60 bars}. */
  public String range(StatisticDefinition definition, double low, double high) {
    return range(definition, low, high, 0);
  }

  /**
   * A stretch of values with the unit once.
   *
   * @param more decimals beyond the catalogue's
   */
  public String range(StatisticDefinition definition, double low, double high, int more) {
    String from =
        definition.percent()
            ? decimal(100 * low, definition.decimals() + more)
            : decimal(low, definition.decimals() + more);
    return Text.of("value.range", from, withUnit(definition, high, more));
  }

  /**
   * How many decimals beyond the catalogue's it takes, at most three, for a value outside a stretch
   * to be printed outside it.
   *
   * @param stretch may have no ends
   */
  public int decimalsThatPart(StatisticDefinition definition, Double value, Interval stretch) {
    if (value == null || !stretch.hasEnds() || value >= stretch.low() && value <= stretch.high()) {
      return 0;
    }
    double end = value < stretch.low() ? stretch.low() : stretch.high();
    int more = 0;
    while (more < MOST_MORE_DECIMALS
        && bare(definition, value, more).equals(bare(definition, end, more))) {
      more++;
    }
    return more;
  }

  /** A difference of two values with its sign and its unit; percentages differ by points. */
  public String difference(StatisticDefinition definition, double difference) {
    return signed(definition, difference) + differenceUnit(definition);
  }

  /** How large a difference of two values is, without a sign, with its unit. */
  public String size(StatisticDefinition definition, double difference) {
    return decimal(
            Math.abs(definition.percent() ? 100 * difference : difference), definition.decimals())
        + differenceUnit(definition);
  }

  /** A number with its sign and a fixed count of decimals. */
  public String signed(double value, int decimals) {
    String size = decimal(Math.abs(value), decimals);
    boolean none = size.equals(decimal(0, decimals));
    return (none ? "" : value < 0 ? "\u2212" : "+") + size;
  }

  /** A stretch of differences with the unit once: {@code −2.0 to +0.5 bars}. */
  public String differences(StatisticDefinition definition, double low, double high) {
    return Text.of("value.range", signed(definition, low), difference(definition, high));
  }

  private String signed(StatisticDefinition definition, double difference) {
    return signed(definition.percent() ? 100 * difference : difference, definition.decimals());
  }

  private static String differenceUnit(StatisticDefinition definition) {
    return definition.percent() ? NO_BREAK + Text.of("value.points") : unit(definition);
  }

  private static String unit(StatisticDefinition definition) {
    return definition.percent() || definition.unit().equals("none") || definition.unit().isBlank()
        ? ""
        : NO_BREAK + definition.unit();
  }

  /** The day of an ISO 8601 date, empty when the text is none or not a whole one. */
  public static Optional<LocalDate> day(String date) {
    if (date == null || date.length() < 10) {
      return Optional.empty();
    }
    try {
      return Optional.of(LocalDate.parse(date.substring(0, 10)));
    } catch (DateTimeParseException e) {
      return Optional.empty();
    }
  }

  /**
   * A date as the locale writes it, in English as in {@code 14 Mar 2026}, which reads the same on
   * both sides of the ocean; a text that is no whole date as it stands.
   */
  public String date(String date) {
    DateTimeFormatter format =
        locale.getLanguage().equals("en") || locale.getLanguage().isEmpty()
            ? DateTimeFormatter.ofPattern("d MMM yyyy", Locale.ENGLISH)
            : DateTimeFormatter.ofLocalizedDate(FormatStyle.MEDIUM).withLocale(locale);
    return day(date).map(format::format).orElse(FileText.withoutDirection(date));
  }
}
