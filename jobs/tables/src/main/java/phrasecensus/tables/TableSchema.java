package phrasecensus.tables;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.InputStream;
import java.io.ObjectStreamException;
import java.io.Serializable;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * The contract of one table, as its file in {@code schemas/} says it: what a row is, the key, the
 * version, the columns. Serializable as its JSON text, so that tasks can carry it.
 */
public final class TableSchema implements Serializable {
  private static final long serialVersionUID = 1L;
  private static final ObjectMapper JSON = new ObjectMapper();

  private final String table;
  private final int version;
  private final String row;
  private final List<String> key;
  private final List<Reference> references;
  private final List<Column> columns;
  private final Map<String, Integer> places = new HashMap<>();
  private final boolean openForMetadata;
  private final JsonNode json;

  /**
   * Columns whose values name a row of a table.
   *
   * @param columns of this table
   * @param table the other table, {@code statistics} for the catalogue
   * @param key the columns of the other table with the same values, as many
   */
  public record Reference(List<String> columns, String table, List<String> key) {
    public Reference {
      columns = List.copyOf(columns);
      key = List.copyOf(key);
    }
  }

  private TableSchema(JsonNode json) {
    this.json = json;
    this.table = json.path("table").textValue();
    this.version = json.path("version").intValue();
    this.row = json.path("row").textValue();
    this.key = texts(json.path("key"));
    List<Reference> found = new ArrayList<>();
    for (JsonNode reference : json.path("references")) {
      found.add(
          new Reference(
              texts(reference.path("columns")),
              reference.path("table").textValue(),
              texts(reference.path("key"))));
    }
    this.references = List.copyOf(found);
    this.openForMetadata = json.has("further_columns");
    List<Column> read = new ArrayList<>();
    for (JsonNode field : json.path("columns").path("fields")) {
      JsonNode metadata = field.path("metadata");
      places.put(field.path("name").textValue(), read.size());
      read.add(
          new Column(
              field.path("name").textValue(),
              ColumnType.of(field.path("type")),
              field.path("nullable").booleanValue(),
              metadata.path("description").textValue(),
              metadata.path("unit").textValue(),
              metadata.path("example").textValue()));
    }
    this.columns = List.copyOf(read);
  }

  private static List<String> texts(JsonNode array) {
    List<String> texts = new ArrayList<>();
    array.forEach(element -> texts.add(element.textValue()));
    return List.copyOf(texts);
  }

  /** Reads a schema file's text. */
  public static TableSchema parse(String text) {
    try {
      return new TableSchema(JSON.readTree(text));
    } catch (IOException e) {
      throw new UncheckedIOException("Cannot read a table schema: " + e.getMessage(), e);
    }
  }

  static TableSchema read(InputStream stream) throws IOException {
    return new TableSchema(JSON.readTree(stream));
  }

  /** Name of the table and of its folder. */
  public String table() {
    return table;
  }

  public int version() {
    return version;
  }

  /** What one row is, in words. */
  public String row() {
    return row;
  }

  /** Names of the columns that identify a row, and by which rows are sorted. */
  public List<String> key() {
    return key;
  }

  /** Which columns name rows of other tables. */
  public List<Reference> references() {
    return references;
  }

  public List<Column> columns() {
    return columns;
  }

  /** True for the table that takes the columns of the metadata file. */
  public boolean isOpenForMetadata() {
    return openForMetadata;
  }

  /**
   * Place of a column.
   *
   * @throws IllegalArgumentException if there is none of that name
   */
  public int place(String column) {
    Integer place = places.get(column);
    if (place == null) {
      throw new IllegalArgumentException("Invalid column: " + column + " is not in table " + table);
    }
    return place;
  }

  public boolean has(String column) {
    return places.containsKey(column);
  }

  /** The columns as Spark's schema JSON, descriptions and units kept. */
  public String sparkJson() {
    return json.path("columns").toString();
  }

  /**
   * This schema with columns of a metadata file added as nullable text, sorted by name.
   *
   * @throws IllegalStateException if the table does not take any
   */
  public TableSchema withMetadata(Collection<String> names) {
    Map<String, ColumnType> texts = new HashMap<>();
    names.forEach(name -> texts.put(name, ColumnType.STRING));
    return withMetadata(texts);
  }

  /**
   * This schema with the columns of a metadata file added, all nullable, sorted by name.
   *
   * @param types of single values, by name of the column
   * @throws IllegalStateException if the table does not take any
   */
  public TableSchema withMetadata(Map<String, ColumnType> types) {
    if (!openForMetadata) {
      throw new IllegalStateException("Cannot add metadata columns to table " + table);
    }
    JsonNode copy = json.deepCopy();
    ArrayNode fields = (ArrayNode) copy.path("columns").path("fields");
    new TreeMap<>(types)
        .forEach(
            (name, type) -> {
              ObjectNode field = fields.addObject();
              field.put("name", name).put("type", type.sparkName()).put("nullable", true);
              ObjectNode metadata = field.putObject("metadata");
              metadata.put("description", "column " + name + " of the metadata file");
              if (type.isNumber()) {
                metadata.put("unit", "that of the metadata file");
              }
              metadata.put("example", "");
            });
    return new TableSchema(copy);
  }

  /**
   * This schema with some of its columns only, in the order given: for rows of which no more is
   * read.
   *
   * @throws IllegalArgumentException if there is no column of a name
   */
  public TableSchema only(List<String> names) {
    ObjectNode copy = json.deepCopy();
    JsonNode all = json.path("columns").path("fields");
    ArrayNode fields = ((ObjectNode) copy.path("columns")).putArray("fields");
    names.forEach(name -> fields.add(all.get(place(name))));
    return new TableSchema(copy);
  }

  private Object writeReplace() throws ObjectStreamException {
    return new Text(json.toString());
  }

  private record Text(String text) implements Serializable {
    private Object readResolve() {
      return parse(text);
    }
  }

  @Override
  public String toString() {
    return table + " version " + version;
  }
}
