package phrasecensus.readers;

/**
 * Something in a file that could not be taken as it stands, and what was done about it.
 *
 * @param part id of the part; empty when it concerns the whole file
 * @param bar the file's text for the bar; empty when it concerns no single bar
 * @param code a stable word in lower case with hyphens, as in {@code unknown-chord-kind}
 * @param found what stands in the file, in a musician's words
 * @param done what the reader made of it
 */
public record Problem(String part, String bar, String code, String found, String done) {
  /**
   * How much of the music it concerns: 1 notes, time or the whole file; 2 harmony, form or single
   * notes read by a guess; 3 read as surely meant; 4 nothing of the music.
   */
  public int severity() {
    return ProblemSeverity.of(code).rank();
  }

  /** A problem of the whole file. */
  public static Problem ofFile(String code, String found, String done) {
    return new Problem("", "", code, found, done);
  }
}
