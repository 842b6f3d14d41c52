package phrasecensus.cli;

import picocli.CommandLine.Option;

/** Switches of the report. */
final class ReportOptions {
  @Option(
      names = "--no-excerpts",
      description = "Leave the notes of solos out of the report, for transcriptions under copyright.")
  boolean noExcerpts;

  @Option(
      names = "--pseudonyms",
      description = "Replace students' names by codes in the report.")
  boolean pseudonyms;
}
