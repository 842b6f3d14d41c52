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
   * The file's text.
   *
   * @param version of the program, as in {@code 0.1.0}
   */
  public static String text(String version) {
    return """
    cff-version: 1.2.0
    message: >-
      If you use these tables, please cite the program that made them as below, and the data that
      it read as METHODS.md names them.
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
        .formatted(version);
  }
}
