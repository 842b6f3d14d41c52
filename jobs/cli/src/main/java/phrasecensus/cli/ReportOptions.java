package phrasecensus.cli;

import java.util.List;
import java.util.Locale;
import phrasecensus.tables.InputException;
import picocli.CommandLine.Option;

/** Switches of the report. */
final class ReportOptions {
  private static final String USUAL_LOCALE = "en";

  @Option(
      names = "--no-excerpts",
      description =
          "Leave the notes of solos out of the report, for transcriptions under copyright.")
  boolean noExcerpts;

  @Option(names = "--pseudonyms", description = "Replace students' names by codes in the report.")
  boolean pseudonyms;

  @Option(
      names = "--pitch",
      paramLabel = "PITCH",
      description =
          "Notes and chords as each player reads them (written) or as they sound (concert)."
              + " Default: ${DEFAULT-VALUE}.")
  private String pitch = "written";

  @Option(
      names = "--locale",
      paramLabel = "TAG",
      description =
          "How the report writes numbers and dates, a language tag such as de or fr-CA; tables and"
              + " the words of the report are not affected. Default: ${DEFAULT-VALUE}.")
  private String locale = USUAL_LOCALE;

  /**
   * True for concert pitch.
   *
   * @throws InputException if neither pitch was named
   */
  boolean concertPitch() {
    if (!pitch.equals("written") && !pitch.equals("concert")) {
      throw new InputException("Invalid value for --pitch: " + pitch + ". Say written or concert.");
    }
    return pitch.equals("concert");
  }

  /**
   * The chosen locale.
   *
   * @throws InputException if the tag is none that this Java knows
   */
  Locale locale() {
    Locale chosen = Locale.forLanguageTag(locale);
    // To list all that Java knows takes longer than to make a page.
    if (locale.equals(USUAL_LOCALE)
        || List.of(Locale.getAvailableLocales()).contains(chosen) && !chosen.equals(Locale.ROOT)) {
      return chosen;
    }
    throw new InputException(
        "Invalid value for --locale: " + locale + ". Give a language tag such as en, de or fr-CA.");
  }
}
