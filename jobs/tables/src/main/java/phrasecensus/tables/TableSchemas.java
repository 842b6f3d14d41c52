package phrasecensus.tables;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** All tables of a study, in the order in which they are made. */
public final class TableSchemas {
  /** Tables that reading makes, one or more rows a file. */
  public static final List<String> OF_READING =
      List.of(
          "files",
          "problems",
          "solos",
          "bars",
          "chords",
          "tonal_centres",
          "notes",
          "grace_notes",
          "phrases",
          "landings",
          "contexts",
          "phrase_contexts",
          "phrase_statistics",
          "solo_statistics",
          "rule_statistics");

  /** Tables made of other tables. */
  public static final List<String> OF_STUDY =
      List.of(
          "norms",
          "phrase_norms",
          "context_norms",
          "sensitivity",
          "contrasts",
          "departures",
          "exemplars",
          "mixtures",
          "trends",
          "neighbours",
          "group_neighbours",
          "aims",
          "answers");

  /** Tables made of other tables when somebody asks for them. */
  public static final List<String> ON_REQUEST =
      List.of(
          "patterns",
          "pattern_recurrence",
          "solo_patterns",
          "figures",
          "figure_places",
          "attributions");

  private static final Map<String, TableSchema> SCHEMAS = load();

  private TableSchemas() {}

  private static Map<String, TableSchema> load() {
    Map<String, TableSchema> schemas = new LinkedHashMap<>();
    for (List<String> names : List.of(OF_READING, OF_STUDY, ON_REQUEST)) {
      for (String name : names) {
        try (InputStream stream =
            TableSchemas.class.getResourceAsStream("/schemas/" + name + ".json")) {
          if (stream == null) {
            throw new IllegalStateException("Cannot find schema " + name + ".json in the program");
          }
          schemas.put(name, TableSchema.read(stream));
        } catch (IOException e) {
          throw new UncheckedIOException(e);
        }
      }
    }
    return schemas;
  }

  /**
   * @throws IllegalArgumentException if there is no such table
   */
  public static TableSchema named(String table) {
    TableSchema schema = SCHEMAS.get(table);
    if (schema == null) {
      throw new IllegalArgumentException("Invalid table: " + table);
    }
    return schema;
  }

  /** Every table, in the order of making; those on request are not in every study. */
  public static List<TableSchema> all() {
    return List.copyOf(SCHEMAS.values());
  }
}
