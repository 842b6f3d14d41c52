package phrasecensus.tables.export;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import phrasecensus.tables.Column;
import phrasecensus.tables.ColumnType;
import phrasecensus.tables.DataSource;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.Publication;
import phrasecensus.tables.TableSchema;

/**
 * The description of an export for machines, {@code datapackage.json}, after the Data Package
 * standard, version 2.0 (Open Knowledge Foundation 2024, datapackage.org): what files there are,
 * with size and SHA-256, the columns of the CSV files with type, meaning and unit, primary and
 * foreign keys. The property {@code unit} of a field is our own; the standard allows further ones.
 */
public final class DataPackage {
  /** Name that the standard gives the file. */
  public static final String FILE_NAME = "datapackage.json";

  private static final String PROFILES = "https://datapackage.org/profiles/2.0/";
  private static final ObjectMapper JSON =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  private DataPackage() {}

  /**
   * A written file.
   *
   * @param path relative to the package, with {@code /}
   * @param bytes its size
   * @param sha256 of its bytes, hexadecimal
   */
  public record WrittenFile(String path, long bytes, String sha256) {}

  /**
   * A table of the export.
   *
   * @param schema its columns, those of metadata included
   * @param csv its CSV form
   * @param parquet its Parquet form
   */
  public record WrittenTable(TableSchema schema, WrittenFile csv, WrittenFile parquet) {}

  /** The description as JSON text, ending in a line break. */
  public static String json(Manifest manifest, List<WrittenTable> tables) {
    List<String> names = tables.stream().map(table -> table.schema().table()).toList();
    ObjectNode root = JSON.createObjectNode();
    root.put("$schema", PROFILES + "datapackage.json");
    root.put("name", identifier(manifest.study().name()));
    root.put("title", manifest.study().title());
    if (!manifest.study().description().isEmpty()) {
      root.put("description", manifest.study().description());
    }
    Publication publication = manifest.study().publication();
    publish(publication, root);
    describe(manifest.study().data(), root);
    licence(
        publication.authors().isEmpty() ? manifest.study().data().licence() : publication.licence(),
        root);
    root.put("program", manifest.program());
    ArrayNode resources = root.putArray("resources");
    for (WrittenTable table : tables) {
      csv(table, names, resources.addObject());
    }
    for (WrittenTable table : tables) {
      parquet(table, resources.addObject());
    }
    try {
      return new String(JSON.writeValueAsBytes(root), StandardCharsets.UTF_8) + "\n";
    } catch (IOException e) {
      throw new IllegalStateException("Cannot write " + FILE_NAME, e);
    }
  }

  private static void describe(DataSource data, ObjectNode root) {
    if (!data.name().isEmpty()) {
      ObjectNode source = root.putArray("sources").addObject();
      source.put("title", data.name());
      if (data.address().matches("https?://.+")) {
        source.put("path", data.address());
      }
      if (!data.citation().isEmpty()) {
        source.put("citation", data.citation());
      }
    }
  }

  /** The licence of the tables: what the study says, else that of the data when it says nothing. */
  private static void licence(String licence, ObjectNode root) {
    if (!licence.isEmpty()) {
      ObjectNode into = root.putArray("licenses").addObject();
      boolean isIdentifier = licence.matches("[-a-zA-Z0-9._]+");
      into.put("name", isIdentifier ? licence : identifier(licence));
      into.put("title", licence);
    }
  }

  private static void publish(Publication publication, ObjectNode root) {
    if (!publication.doi().isEmpty()) {
      root.put("id", "https://doi.org/" + publication.doi());
    }
    if (!publication.version().isEmpty()) {
      root.put("version", publication.version());
    }
    if (!publication.date().isEmpty()) {
      // The standard wants a moment; the study knows the day.
      root.put("created", publication.date() + "T00:00:00Z");
    }
    if (!publication.authors().isEmpty()) {
      ArrayNode contributors = root.putArray("contributors");
      for (Publication.Author author : publication.authors()) {
        ObjectNode contributor = contributors.addObject();
        contributor.put("title", author.name());
        if (!author.givenNames().isEmpty()) {
          contributor.put("givenName", author.givenNames());
          contributor.put("familyName", author.familyName());
        }
        if (!author.orcid().isEmpty()) {
          contributor.put("path", "https://orcid.org/" + author.orcid());
        }
        if (!author.affiliation().isEmpty()) {
          contributor.put("organization", author.affiliation());
        }
        contributor.putArray("roles").add("creator");
      }
    }
  }

  private static void file(WrittenFile file, ObjectNode into) {
    into.put("path", file.path());
    into.put("bytes", file.bytes());
    into.put("hash", "sha256:" + file.sha256());
  }

  private static void parquet(WrittenTable table, ObjectNode into) {
    into.put("$schema", PROFILES + "dataresource.json");
    into.put("name", table.schema().table() + "-parquet");
    into.put("description", "The same rows as " + table.csv().path() + ", in the same order.");
    file(table.parquet(), into);
    into.put("format", "parquet");
    into.put("mediatype", "application/vnd.apache.parquet");
  }

  private static void csv(WrittenTable table, List<String> names, ObjectNode into) {
    TableSchema schema = table.schema();
    into.put("$schema", PROFILES + "dataresource.json");
    into.put("name", schema.table());
    into.put("type", "table");
    into.put("description", "One row: " + schema.row() + ".");
    file(table.csv(), into);
    into.put("format", "csv");
    into.put("mediatype", "text/csv");
    into.put("encoding", "utf-8");
    into.putObject("dialect")
        .put("delimiter", ",")
        .put("lineTerminator", CsvTable.LINE_END)
        .put("quoteChar", "\"")
        .put("doubleQuote", true)
        .put("header", true);
    ObjectNode columns = into.putObject("schema");
    columns.put("$schema", PROFILES + "tableschema.json");
    columns.put("version", schema.version());
    ArrayNode fields = columns.putArray("fields");
    for (Column column : CsvTable.columns(schema)) {
      field(column, fields.addObject());
    }
    columns.putArray("missingValues").add("");
    texts(schema.key(), columns.putArray("primaryKey"));
    List<TableSchema.Reference> references =
        schema.references().stream().filter(each -> names.contains(each.table())).toList();
    if (!references.isEmpty()) {
      ArrayNode foreignKeys = columns.putArray("foreignKeys");
      for (TableSchema.Reference reference : references) {
        ObjectNode foreignKey = foreignKeys.addObject();
        texts(reference.columns(), foreignKey.putArray("fields"));
        ObjectNode other = foreignKey.putObject("reference");
        other.put("resource", reference.table());
        texts(reference.key(), other.putArray("fields"));
      }
    }
  }

  private static void field(Column column, ObjectNode into) {
    into.put("name", column.name());
    into.put("type", type(column.type()));
    into.put("description", column.description());
    if (column.unit() != null) {
      into.put("unit", column.unit());
    }
    if (column.example() != null && !column.example().isEmpty()) {
      into.put("example", column.example());
    }
    if (!column.nullable()) {
      into.putObject("constraints").put("required", true);
      if (column.type() == ColumnType.STRING) {
        // An empty text in such a column is a text, not a missing value.
        into.putArray("missingValues");
      }
    }
  }

  private static String type(ColumnType type) {
    return switch (type) {
      case STRING -> "string";
      case INTEGER, LONG -> "integer";
      case DOUBLE -> "number";
      case BOOLEAN -> "boolean";
      case DATE -> "date";
      case STRING_ARRAY, INTEGER_ARRAY -> "array";
    };
  }

  private static void texts(List<String> texts, ArrayNode into) {
    new ArrayList<>(texts).forEach(into::add);
  }

  /** A name as the standard wants it: lower case letters, digits, dots and hyphens. */
  static String identifier(String name) {
    String plain =
        java.text.Normalizer.normalize(name, java.text.Normalizer.Form.NFKD)
            .toLowerCase(Locale.ROOT)
            .replaceAll("\\p{M}", "")
            .replaceAll("[^a-z0-9.]+", "-")
            .replaceAll("^[-.]+|[-.]+$", "");
    return plain.isEmpty() ? "study" : plain;
  }
}
