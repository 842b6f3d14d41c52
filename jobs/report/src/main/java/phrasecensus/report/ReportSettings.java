package phrasecensus.report;

import java.util.Locale;
import java.util.Objects;

/**
 * What a reader may choose about a report.
 *
 * @param excerpts false to leave out everything that shows the notes of a solo
 * @param pseudonyms true to call students {@code Student 1}, {@code Student 2} …, in the order of
 *     their names, and to leave out titles, players and paths of their files
 * @param concertPitch true to show notes and chords as they sound; false as each player reads them
 * @param locale how numbers and dates are written; the text is English
 */
public record ReportSettings(
    boolean excerpts, boolean pseudonyms, boolean concertPitch, Locale locale) {
  public ReportSettings {
    Objects.requireNonNull(locale, "locale");
  }

  /** With excerpts, real names, written pitch and English numbers. */
  public static ReportSettings usual() {
    return new ReportSettings(true, false, false, Locale.ENGLISH);
  }

  public ReportSettings withoutExcerpts() {
    return new ReportSettings(false, pseudonyms, concertPitch, locale);
  }

  public ReportSettings withPseudonyms() {
    return new ReportSettings(excerpts, true, concertPitch, locale);
  }

  public ReportSettings withLocale(Locale chosen) {
    return new ReportSettings(excerpts, pseudonyms, concertPitch, chosen);
  }

  public ReportSettings atConcertPitch() {
    return new ReportSettings(excerpts, pseudonyms, true, locale);
  }
}
