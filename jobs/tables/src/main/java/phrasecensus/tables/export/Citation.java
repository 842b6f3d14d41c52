package phrasecensus.tables.export;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import phrasecensus.tables.DataSource;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.Publication;

/**
 * How to cite the program, and how to cite the tables of a study, each a {@code CITATION.cff} after
 * the Citation File Format 1.2.0 (Druskat et al. 2021, doi:10.5281/zenodo.5171937).
 */
public final class Citation {
  /** Name that the format gives the file. */
  public static final String FILE_NAME = "CITATION.cff";

  /** The file of the program in an export, apart from that of the tables. */
  public static final String OF_PROGRAM = "program/" + FILE_NAME;

  private static final String PROGRAM =
      """
      type: software
      title: Phrase Census
      version: "%s"
      abstract: >-
        A batch study of the phrases of transcribed solos: reads MusicXML, finds and describes the
        phrases, makes the norms of a corpus and compares students' solos with them.
      authors:
        - name: The contributors to Phrase Census
      license: Apache-2.0
      """;

  private static final ObjectMapper JSON = new ObjectMapper();

  private Citation() {}

  /**
   * The file's text beside the program.
   *
   * @param version of the program, as in {@code 0.1.0}
   */
  public static String ofProgram(String version) {
    return """
    cff-version: 1.2.0
    message: >-
      If you use Phrase Census in your work, please cite it as below.
    """
        + PROGRAM.formatted(version);
  }

  /**
   * The file's text beside the tables of a study. What the study does not state is left out; it
   * must state its authors.
   *
   * @param version of the program, which is named among the references
   */
  public static String ofData(Manifest.Study study, String version) {
    Publication publication = study.publication();
    StringBuilder text = new StringBuilder("cff-version: 1.2.0\n");
    text.append("message: If you use these tables, please cite them and what they were made of.\n");
    text.append("type: dataset\n");
    line(text, "", "title", study.title());
    line(text, "", "abstract", study.description());
    text.append("authors:\n");
    for (Publication.Author author : publication.authors()) {
      if (author.givenNames().isEmpty()) {
        line(text, "  - ", "name", author.familyName());
      } else {
        line(text, "  - ", "family-names", author.familyName());
        line(text, "    ", "given-names", author.givenNames());
      }
      line(text, "    ", author.givenNames().isEmpty() ? "" : "affiliation", author.affiliation());
      line(
          text,
          "    ",
          "orcid",
          author.orcid().isEmpty() ? "" : "https://orcid.org/" + author.orcid());
    }
    line(text, "", "version", publication.version());
    line(text, "", "date-released", publication.date());
    line(text, "", "doi", publication.doi());
    if (publication.licence().matches("[-a-zA-Z0-9.+]+")) {
      line(text, "", "license", publication.licence());
    }
    text.append("references:\n");
    DataSource data = study.data();
    if (!data.name().isEmpty()) {
      text.append("  - type: dataset\n");
      line(text, "    ", "title", data.name());
      // The format asks for authors of all that is referred to; the study names its data in a line.
      text.append("    authors:\n");
      line(text, "      - ", "name", "The makers of " + data.name());
      line(text, "    ", "url", data.address().matches("https?://\\S+") ? data.address() : "");
      line(text, "    ", "notes", data.citation());
    }
    return text + "  - " + PROGRAM.formatted(version).strip().replace("\n", "\n    ") + "\n";
  }

  /** A key with its value as a quoted text; nothing where either is empty. */
  private static void line(StringBuilder text, String indent, String key, String value) {
    if (!key.isEmpty() && !value.isEmpty()) {
      text.append(indent).append(key).append(": ").append(quoted(value)).append('\n');
    }
  }

  /** Every JSON text is one of YAML 1.2 (yaml.org/spec/1.2.2, section 1.3). */
  private static String quoted(String text) {
    try {
      return JSON.writeValueAsString(text);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("Cannot write " + FILE_NAME, e);
    }
  }
}
