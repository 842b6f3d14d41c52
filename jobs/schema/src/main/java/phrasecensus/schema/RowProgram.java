package phrasecensus.schema;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/**
 * Writes a record for every table of a folder of schemas, and an enum for every vocabulary there.
 */
public final class RowProgram {
  private static final String PACKAGE = "phrasecensus.tables.row";
  private static final String VOCABULARIES = "vocabularies.json";

  private RowProgram() {}

  /**
   * Runs the program.
   *
   * @param arguments the folder of schemas, the folder for sources
   */
  public static void main(String[] arguments) throws IOException {
    Path folder = Path.of(arguments[1], PACKAGE.replace('.', '/'));
    Map<String, String> sources = sources(Path.of(arguments[0]));
    Files.createDirectories(folder);
    Set<String> files = new HashSet<>();
    for (Map.Entry<String, String> source : sources.entrySet()) {
      files.add(source.getKey() + ".java");
      Path file = folder.resolve(source.getKey() + ".java");
      // What is as it was is left alone, so that it is not compiled again.
      if (!Files.exists(file) || !Files.readString(file).equals(source.getValue())) {
        Files.writeString(file, source.getValue());
      }
    }
    try (DirectoryStream<Path> written = Files.newDirectoryStream(folder)) {
      for (Path file : written) {
        if (!files.contains(file.getFileName().toString())) {
          Files.delete(file);
        }
      }
    }
  }

  /**
   * The sources by class name.
   *
   * @throws SchemaException if a file makes none
   */
  static Map<String, String> sources(Path schemas) throws IOException {
    ObjectMapper mapper = new ObjectMapper();
    Map<String, Vocabulary> vocabularies =
        Vocabulary.all(mapper.readTree(schemas.resolve(VOCABULARIES).toFile()));
    Map<String, String> sources = new TreeMap<>();
    vocabularies.values().forEach(words -> sources.put(words.className(), words.source(PACKAGE)));
    sources.put(
        "package-info",
        "/** A record for every table and an enum for every vocabulary, written by the build. */\n"
            + "package "
            + PACKAGE
            + ";\n");
    Set<String> used = new HashSet<>();
    try (DirectoryStream<Path> files = Files.newDirectoryStream(schemas, "*.json")) {
      for (Path file : files) {
        JsonNode json = mapper.readTree(file.toFile());
        // The catalogue of statistics is no table of a study.
        if (json.has("table") && !json.has("catalogue")) {
          RowSource row = new RowSource(PACKAGE, json, vocabularies);
          if (sources.put(row.className(), row.text()) != null) {
            throw new SchemaException(row.className() + " is there twice");
          }
          json.path("vocabularies").forEach(name -> used.add(name.textValue()));
        }
      }
    }
    for (String name : vocabularies.keySet()) {
      if (!used.contains(name)) {
        throw new SchemaException("No table uses vocabulary " + name);
      }
    }
    return sources;
  }
}
