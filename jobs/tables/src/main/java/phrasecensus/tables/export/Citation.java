package phrasecensus.tables.export;

/**
 * How to cite the program, {@code CITATION.cff}, after the Citation File Format 1.2.0 (Druskat et
 * al. 2021, doi:10.5281/zenodo.5171937).
 */
public final class Citation {
  /** Name that the format gives the file. */
  public static final String FILE_NAME = "CITATION.cff";

  private Citation() {}

  /**
   * The file's text beside tables.
   *
   * @param version of the program, as in {@code 0.1.0}
   */
  public static String text(String version) {
    return text(
        version,
        """
        If you use these tables, please cite the program that made them as below, and the data that
          it read as METHODS.md names them.\
        """);
  }

  /**
   * The file's text beside the program.
   *
   * @param version of the program, as in {@code 0.1.0}
   */
  public static String ofProgram(String version) {
    return text(version, "If you use Phrase Census in your work, please cite it as below.");
  }

  private static String text(String version, String message) {
    return """
    cff-version: 1.2.0
    message: >-
      %s
    type: software
    title: Phrase Census
    version: "%s"
    abstract: >-
      A batch study of the phrases of transcribed solos: reads MusicXML, finds and describes the
      phrases, makes the norms of a corpus and compares students' solos with them.
    authors:
      - name: The contributors to Phrase Census
    license: Apache-2.0
    """
        .formatted(message, version);
  }
}
