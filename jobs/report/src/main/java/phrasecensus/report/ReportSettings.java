package phrasecensus.report;

import java.util.Locale;
import java.util.Objects;

/**
 * What a reader may choose about a report.
 *
 * @param excerpts false to leave out everything that shows the notes of a solo
 * @param pseudonyms true to call students {@code Student 1}, {@code Student 2} …, in the order of
 *     their names, and to leave out titles, players and paths of their files
 * @param locale how numbers and dates are written; the text is English
 */
public record ReportSettings(boolean excerpts, boolean pseudonyms, Locale locale) {
  public ReportSettings {
    Objects.requireNonNull(locale, "locale");
  }

  /** With excerpts, real names and English numbers. */
  public static ReportSettings usual() {
    return new ReportSettings(true, false, Locale.ENGLISH);
  }

  public ReportSettings withoutExcerpts() {
    return new ReportSettings(false, pseudonyms, locale);
  }

  public ReportSettings withPseudonyms() {
    return new ReportSettings(excerpts, true, locale);
  }

  public ReportSettings withLocale(Locale chosen) {
    return new ReportSettings(excerpts, pseudonyms, chosen);
  }
}
