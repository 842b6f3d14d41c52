package phrasecensus.tables;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.security.DigestOutputStream;
import java.security.MessageDigest;
import java.util.Collections;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * What made a study: program, settings, inputs with checksums, and a digest of every table. It says
 * everything that has to be the same for the tables to be the same, and nothing else: two runs over
 * the same inputs write the same manifest.
 *
 * @param program name and version of the program
 * @param study name, title, description and data of the study
 * @param settings every setting that the tables depend on, by name
 * @param by metadata columns that group the norms
 * @param report what the study asks of its report
 * @param metadata metadata files by role; empty without any
 * @param inputs every input file with its checksum
 * @param catalogueVersion version of the statistics catalogue
 * @param tables what was written, by table
 */
@JsonPropertyOrder({
  "program",
  "study",
  "settings",
  "by",
  "report",
  "metadata",
  "catalogueVersion",
  "tables",
  "inputs"
})
@JsonInclude(JsonInclude.Include.ALWAYS)
public record Manifest(
    String program,
    Study study,
    Map<String, String> settings,
    List<String> by,
    Report report,
    List<MetadataFile> metadata,
    List<Input> inputs,
    int catalogueVersion,
    Map<String, Table> tables) {

  /** Name of the file in the study folder. */
  public static final String FILE_NAME = "manifest.json";

  private static final ObjectMapper JSON =
      new ObjectMapper()
          .enable(SerializationFeature.INDENT_OUTPUT)
          // A later program may say more; the versions of the tables tell whether they can be read.
          .disable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES);

  /**
   * What the study calls itself.
   *
   * @param name short name, as in a file name
   * @param title for people; never empty
   * @param description a sentence or more; may be empty
   * @param data the data set that was studied; nothing stated in manifests before there was such a
   *     key
   * @param publication how the tables are to be cited; left out of the text when nothing is stated
   */
  public record Study(
      String name,
      String title,
      String description,
      DataSource data,
      @JsonInclude(value = JsonInclude.Include.CUSTOM, valueFilter = NotStated.class)
          Publication publication) {
    public Study {
      data = data == null ? DataSource.NOT_STATED : data;
      publication = publication == null ? Publication.NOT_STATED : publication;
    }

    /** A study that says nothing of how its tables are to be cited. */
    public Study(String name, String title, String description, DataSource data) {
      this(name, title, description, data, Publication.NOT_STATED);
    }
  }

  /** Equal to what is left out of the text. */
  static final class NotStated {
    @Override
    public boolean equals(Object value) {
      return value == null || value.equals(Publication.NOT_STATED);
    }

    @Override
    public int hashCode() {
      return 0;
    }
  }

  /**
   * What a study asks of its report.
   *
   * @param excerpts true to show the notes of phrases
   * @param pseudonyms true to replace students' names by codes
   */
  public record Report(boolean excerpts, boolean pseudonyms) {}

  /**
   * An input file.
   *
   * @param role corpus or student
   * @param file path relative to the folder of its role
   * @param sha256 checksum, or null when its bytes could not be read
   */
  public record Input(String role, String file, String sha256) {}

  /**
   * A file that says of the scores what they do not say themselves.
   *
   * @param role corpus or student
   * @param file name of the file
   * @param sha256 checksum
   * @param columns names that the study gives to columns, to those in the file
   * @param types what the cells of its columns are, by the columns' names in the study; those left
   *     out that fill columns of their own
   * @param declaredTypes those of them that the study says; the cells tell the rest
   * @param emptiedCells those that are not of their column's type and empty in the tables
   * @param rowsWithoutFile what its rows name that is no score of the folder, sorted
   * @param filesWithoutRow scores of which it says nothing, sorted
   */
  public record MetadataFile(
      String role,
      String file,
      String sha256,
      Map<String, String> columns,
      Map<String, MetadataType> types,
      List<String> declaredTypes,
      List<EmptiedCell> emptiedCells,
      List<String> rowsWithoutFile,
      List<String> filesWithoutRow) {
    public MetadataFile {
      // Manifests before there were such things have none.
      columns = columns == null ? Map.of() : Collections.unmodifiableMap(new TreeMap<>(columns));
      types = types == null ? Map.of() : Collections.unmodifiableMap(new TreeMap<>(types));
      declaredTypes = declaredTypes == null ? List.of() : List.copyOf(declaredTypes);
      emptiedCells = emptiedCells == null ? List.of() : List.copyOf(emptiedCells);
      rowsWithoutFile = rowsWithoutFile == null ? List.of() : List.copyOf(rowsWithoutFile);
      filesWithoutRow = filesWithoutRow == null ? List.of() : List.copyOf(filesWithoutRow);
    }
  }

  /**
   * A cell of a metadata file that is empty in the tables.
   *
   * @param row where it stands, 1 for the names of the columns
   * @param column its name in the study
   * @param cell as written
   */
  public record EmptiedCell(long row, String column, String cell) {}

  /**
   * A written table.
   *
   * @param version version of its schema
   * @param rows number of rows
   * @param digest of its rows, independent of their order and of how they are stored
   * @param parts what each of its files holds, by name of the file; empty in manifests before there
   *     was such a key
   */
  public record Table(
      int version,
      long rows,
      String digest,
      @JsonInclude(JsonInclude.Include.NON_EMPTY) Map<String, Part> parts) {
    public Table {
      parts = parts == null ? Map.of() : Collections.unmodifiableMap(new TreeMap<>(parts));
    }

    /** A table of which nothing is said of its files. */
    public Table(int version, long rows, String digest) {
      this(version, rows, digest, Map.of());
    }
  }

  /**
   * What one file of a table holds.
   *
   * @param rows number of rows
   * @param digest of its rows; those of all files add up to that of the table
   */
  public record Part(long rows, String digest) {}

  /**
   * Reads a manifest.
   *
   * @param name how messages call the file
   * @throws InputException if it is not one
   */
  public static Manifest parse(String name, byte[] bytes) {
    return parse(name, new ByteArrayInputStream(bytes));
  }

  /** The same from a stream, which is closed. */
  public static Manifest parse(String name, InputStream stream) {
    try {
      Manifest manifest = JSON.readValue(stream, Manifest.class);
      if (manifest.program() == null || manifest.tables() == null || manifest.study() == null) {
        throw new InputException("Cannot read " + name + ": it is not the manifest of a study.");
      }
      return manifest;
    } catch (IOException e) {
      throw new InputException(
          "Cannot read " + name + ": it is not the manifest of a finished study. Run it again.", e);
    }
  }

  /** Writes the manifest as JSON text that ends in a line break, and leaves the stream open. */
  public void write(OutputStream stream) throws IOException {
    JSON.writer().without(JsonGenerator.Feature.AUTO_CLOSE_TARGET).writeValue(stream, this);
    stream.write('\n');
  }

  /** The manifest as JSON text, ending in a line break. */
  public String json() {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try {
      write(bytes);
    } catch (IOException e) {
      throw new IllegalStateException("Cannot write the manifest", e);
    }
    return bytes.toString(StandardCharsets.UTF_8);
  }

  /** SHA-256 of the JSON text. */
  public String sha256() {
    MessageDigest digest = Sha256.digest();
    try {
      write(new DigestOutputStream(OutputStream.nullOutputStream(), digest));
    } catch (IOException e) {
      throw new IllegalStateException("Cannot write the manifest", e);
    }
    return HexFormat.of().formatHex(digest.digest());
  }
}
