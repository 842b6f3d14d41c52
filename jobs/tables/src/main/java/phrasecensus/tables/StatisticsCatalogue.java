package phrasecensus.tables;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The statistics as {@code schemas/statistics.json} defines them, in its order. */
public final class StatisticsCatalogue {
  private static final StatisticsCatalogue BUILT_IN = load();

  private final int version;
  private final Map<String, StatisticDefinition> definitions;
  private final List<MixDefinition> mixes;
  private final TableSchema schema;
  private final List<TableRow> rows;

  private StatisticsCatalogue(
      int version,
      Map<String, StatisticDefinition> definitions,
      List<MixDefinition> mixes,
      TableSchema schema,
      List<TableRow> rows) {
    this.version = version;
    this.definitions = definitions;
    this.mixes = List.copyOf(mixes);
    this.schema = schema;
    this.rows = List.copyOf(rows);
  }

  /** The catalogue that comes with the program. */
  public static StatisticsCatalogue builtIn() {
    return BUILT_IN;
  }

  private static StatisticsCatalogue load() {
    try (InputStream stream =
        StatisticsCatalogue.class.getResourceAsStream("/schemas/statistics.json")) {
      if (stream == null) {
        throw new IllegalStateException("Cannot find statistics.json in the program");
      }
      ObjectMapper mapper = new ObjectMapper();
      JsonNode json = mapper.readTree(stream);
      TableSchema schema = TableSchema.parse(json.toString());
      List<TableRow> rows = new ArrayList<>();
      Map<String, StatisticDefinition> read = new LinkedHashMap<>();
      for (JsonNode entry : json.path("statistics")) {
        StatisticDefinition definition = mapper.treeToValue(entry, StatisticDefinition.class);
        if (read.put(definition.key(), definition) != null) {
          throw new IllegalStateException("Duplicate statistic: " + definition.key());
        }
        rows.add(row(entry, schema, mapper));
      }
      List<MixDefinition> mixes = new ArrayList<>();
      for (JsonNode entry : json.path("mixes")) {
        MixDefinition mix = mapper.treeToValue(entry, MixDefinition.class);
        if (!read.keySet().containsAll(mix.classes())) {
          throw new IllegalStateException("Unknown statistic in mix: " + mix.key());
        }
        mixes.add(mix);
      }
      return new StatisticsCatalogue(json.path("version").intValue(), read, mixes, schema, rows);
    } catch (IOException e) {
      throw new UncheckedIOException("Cannot read statistics.json: " + e.getMessage(), e);
    }
  }

  private static TableRow row(JsonNode entry, TableSchema schema, ObjectMapper mapper)
      throws IOException {
    TableRow.Builder row = TableRow.of(schema);
    for (Column column : schema.columns()) {
      row.set(
          column.name(), mapper.treeToValue(entry.path(column.name()), column.type().valueClass()));
    }
    return row.build();
  }

  /** The columns of the catalogue as a table. */
  public TableSchema schema() {
    return schema;
  }

  /** The catalogue as a table, a row a statistic, in the catalogue's order. */
  public List<TableRow> rows() {
    return rows;
  }

  public int version() {
    return version;
  }

  /** Every definition, in the catalogue's order. */
  public List<StatisticDefinition> all() {
    return List.copyOf(definitions.values());
  }

  /** Shares that make a whole, in the catalogue's order; no statistic belongs to two. */
  public List<MixDefinition> mixes() {
    return mixes;
  }

  /** The definitions of a level, {@code phrase} or {@code solo}, in the catalogue's order. */
  public List<StatisticDefinition> ofLevel(String level) {
    return definitions.values().stream().filter(d -> d.levels().contains(level)).toList();
  }

  public Optional<StatisticDefinition> named(String key) {
    return Optional.ofNullable(definitions.get(key));
  }
}
