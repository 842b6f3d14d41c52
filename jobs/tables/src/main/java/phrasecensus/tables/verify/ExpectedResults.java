package phrasecensus.tables.verify;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import phrasecensus.tables.ColumnType;
import phrasecensus.tables.InputException;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.NamedFile;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.StudyDefinition;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSchemas;
import phrasecensus.tables.TableSource;
import phrasecensus.tables.YamlText;

/**
 * What a study is expected to give: a YAML file beside the study file. What it holds is its
 * author's choice; the values are written by the program.
 *
 * @param counts counts by name; each must be met exactly
 * @param tables digests of tables by name; each must be met exactly
 * @param results single numbers of tables, each with its tolerance
 * @param inputs SHA-256 of every input by role and path
 */
public record ExpectedResults(
    Map<String, Long> counts,
    Map<String, String> tables,
    List<Result> results,
    Map<String, String> inputs) {

  /** Tables of reading that hold exact values: whole numbers, pairs, words, and no statistic. */
  private static final List<String> FIRST_TABLES =
      List.of("files", "bars", "chords", "notes", "phrases");

  private static final double FIRST_TOLERANCE = 0.001;

  /** In bytes; one with the checksums of a hundred thousand inputs has ten million. */
  private static final long LARGEST_FILE = 64L << 20;

  private static final List<String> KEYS = List.of("counts", "tables", "results", "inputs");
  private static final List<String> RESULT_KEYS =
      List.of("table", "row", "column", "expected", "tolerance");
  private static final ObjectMapper JSON = new ObjectMapper();

  public ExpectedResults {
    counts = Collections.unmodifiableMap(new LinkedHashMap<>(counts));
    tables = Collections.unmodifiableMap(new LinkedHashMap<>(tables));
    results = List.copyOf(results);
    inputs = Collections.unmodifiableMap(new LinkedHashMap<>(inputs));
  }

  /**
   * One number of one row of a table.
   *
   * @param table name of the table
   * @param row columns of text and the value each has in the row; one row must fit
   * @param column the column of the number
   * @param expected its value; null when it is expected to be missing
   * @param tolerance the largest difference that passes; not negative
   */
  public record Result(
      String table, Map<String, String> row, String column, Double expected, double tolerance) {
    public Result {
      row = Collections.unmodifiableMap(new LinkedHashMap<>(row));
    }

    /** As it is called in print. */
    public String name() {
      return table + "." + column + " of " + String.join(", ", row.values());
    }

    Result worth(Double value) {
      return new Result(table, row, column, value, tolerance);
    }
  }

  /**
   * What a study's author would hold first: counts, the tables of reading, and the medians of the
   * headline statistics over the whole corpus.
   */
  public static ExpectedResults first(Manifest manifest, TableSource tables) {
    Map<String, String> digests = new LinkedHashMap<>();
    FIRST_TABLES.forEach(table -> digests.put(table, ""));
    List<Result> results = new ArrayList<>();
    for (StatisticDefinition each : StatisticsCatalogue.builtIn().all()) {
      if (each.headline()) {
        Map<String, String> row = new LinkedHashMap<>();
        row.put("group_by", "all");
        row.put("group_value", "all");
        row.put("statistic", each.key());
        results.add(new Result("norms", row, "p50", null, FIRST_TOLERANCE));
      }
    }
    Map<String, Long> counts = new StudyResults(manifest, tables).counts();
    return new ExpectedResults(counts, digests, results, Map.of()).filled(manifest, tables);
  }

  /** The same counts, tables and results with the values of a finished study, and its inputs. */
  public ExpectedResults filled(Manifest manifest, TableSource tables) {
    StudyResults actual = new StudyResults(manifest, tables);
    Map<String, Long> newCounts = new LinkedHashMap<>(counts);
    newCounts.replaceAll((name, value) -> actual.counts().get(name));
    Map<String, String> newTables = new LinkedHashMap<>(this.tables);
    newTables.replaceAll((table, digest) -> actual.digests().getOrDefault(table, ""));
    return new ExpectedResults(
        newCounts,
        newTables,
        results.stream().map(result -> result.worth(actual.value(result))).toList(),
        actual.inputs());
  }

  /**
   * Reads a file of expected results.
   *
   * @throws InputException naming the file and what is wrong
   */
  public static ExpectedResults read(Path file) {
    String text;
    try {
      text =
          StandardCharsets.UTF_8
              .newDecoder()
              .decode(
                  ByteBuffer.wrap(
                      NamedFile.bytes(
                          "Cannot read the expected results " + file, file, LARGEST_FILE)))
              .toString();
    } catch (NoSuchFileException e) {
      throw new InputException(
          "Cannot find the expected results "
              + file
              + ". Write them with 'phrase-census verify STUDY.yaml --write-expected'.",
          e);
    } catch (IOException e) {
      throw new InputException(
          "Cannot read the expected results " + file + ": it is not text in UTF-8.", e);
    }
    JsonNode root = YamlText.root("expected results " + file, text);
    return new Reading(file).results(root);
  }

  static TableSchema schema(Result result) {
    TableSchema schema = TableSchemas.named(result.table());
    ColumnType type = schema.columns().get(schema.place(result.column())).type();
    if (!StudyResults.isNumber(type)) {
      throw new IllegalArgumentException(
          "Invalid column: " + result.table() + "." + result.column() + " holds no numbers");
    }
    for (String column : result.row().keySet()) {
      if (schema.columns().get(schema.place(column)).type() != ColumnType.STRING) {
        throw new IllegalArgumentException(
            "Invalid column: " + result.table() + "." + column + " holds no text to find a row by");
      }
    }
    return schema;
  }

  private record Reading(Path file) {
    ExpectedResults results(JsonNode root) {
      if (root == null || !root.isObject()) {
        throw unusable("it has no keys. It needs at least one of " + String.join(", ", KEYS) + ".");
      }
      allow(root, KEYS);
      Map<String, Long> counts = new LinkedHashMap<>();
      for (Map.Entry<String, JsonNode> count : entries(root, "counts")) {
        counts.put(count.getKey(), whole(count.getKey(), count.getValue()));
      }
      Map<String, String> tables = texts(root, "tables");
      for (String table : tables.keySet()) {
        if (TableSchemas.all().stream().noneMatch(each -> each.table().equals(table))) {
          throw unusable("there is no table '" + table + "'.");
        }
      }
      List<Result> results = new ArrayList<>();
      for (JsonNode result : root.path("results")) {
        results.add(result(result, results.size() + 1));
      }
      return new ExpectedResults(counts, tables, results, texts(root, "inputs"));
    }

    private Result result(JsonNode node, int place) {
      String where = "result " + place;
      if (!node.isObject()) {
        throw unusable(where + " must hold " + String.join(", ", RESULT_KEYS) + ".");
      }
      allow(node, RESULT_KEYS);
      for (String key : List.of("table", "row", "column", "tolerance")) {
        if (!node.hasNonNull(key)) {
          throw unusable(where + " has no '" + key + "'.");
        }
      }
      Double expected =
          node.path("expected").isNull() || node.path("expected").asText().equals("missing")
              ? null
              : number(where, "expected", node.path("expected"));
      double tolerance = number(where, "tolerance", node.path("tolerance"));
      if (tolerance < 0) {
        throw unusable("'tolerance' of " + where + " is negative.");
      }
      Result result =
          new Result(
              node.path("table").asText(),
              texts(node, "row"),
              node.path("column").asText(),
              expected,
              tolerance);
      try {
        schema(result);
      } catch (IllegalArgumentException e) {
        throw unusable(where + ": " + e.getMessage() + ".");
      }
      return result;
    }

    private InputException unusable(String why) {
      return new InputException("Cannot use the expected results " + file + ": " + why);
    }

    private void allow(JsonNode node, List<String> keys) {
      node.fieldNames()
          .forEachRemaining(
              key -> {
                if (!keys.contains(key)) {
                  throw unusable(
                      "unknown key '"
                          + key
                          + "'. Did you mean '"
                          + StudyDefinition.nearest(key, keys)
                          + "'?");
                }
              });
    }

    private List<Map.Entry<String, JsonNode>> entries(JsonNode root, String key) {
      JsonNode node = root.path(key);
      if (node.isMissingNode() || node.isNull()) {
        return List.of();
      }
      if (!node.isObject()) {
        throw unusable("'" + key + "' must hold 'name: value' lines.");
      }
      return List.copyOf(node.properties());
    }

    private Map<String, String> texts(JsonNode root, String key) {
      Map<String, String> texts = new LinkedHashMap<>();
      entries(root, key).forEach(each -> texts.put(each.getKey(), each.getValue().asText()));
      return texts;
    }

    private double number(String where, String key, JsonNode value) {
      if (value.isMissingNode()) {
        throw unusable(where + " has no '" + key + "'.");
      }
      if (!value.isNumber()
          || Double.isNaN(value.doubleValue())
          || Double.isInfinite(value.doubleValue())) {
        throw unusable("'" + key + "' of " + where + " is '" + value.asText() + "', not a number.");
      }
      return value.doubleValue();
    }

    private long whole(String name, JsonNode value) {
      if (!value.isIntegralNumber()) {
        throw unusable("the count '" + name + "' is '" + value.asText() + "', not a whole number.");
      }
      return value.longValue();
    }
  }

  /**
   * The file's text.
   *
   * @param studyFile how the study file is called in the text
   */
  public String yaml(String studyFile) {
    StringBuilder text = new StringBuilder();
    text.append("# What ")
        .append(studyFile)
        .append(" is expected to give. Which counts, tables and");
    text.append(" results are held,\n# and how closely, is decided here by hand; the values are");
    text.append(" written anew by\n#   phrase-census verify ").append(studyFile);
    text.append(" --write-expected\n");
    text.append("counts:\n");
    counts.forEach(
        (name, count) -> text.append("  ").append(name).append(": ").append(count).append('\n'));
    text.append("tables:\n");
    tables.forEach(
        (name, digest) ->
            text.append("  ").append(name).append(": ").append(quoted(digest)).append('\n'));
    text.append("results:\n");
    for (Result result : results) {
      text.append("  - table: ").append(result.table()).append('\n');
      List<String> row = new ArrayList<>();
      result.row().forEach((column, value) -> row.add(column + ": " + quoted(value)));
      text.append("    row: {").append(String.join(", ", row)).append("}\n");
      text.append("    column: ").append(result.column()).append('\n');
      text.append("    expected: ").append(number(result.expected())).append('\n');
      text.append("    tolerance: ").append(number(result.tolerance())).append('\n');
    }
    text.append("inputs:\n");
    inputs.forEach(
        (name, sha256) ->
            text.append("  ")
                .append(quoted(name))
                .append(": ")
                .append(quoted(sha256))
                .append('\n'));
    return text.toString();
  }

  private static String number(Double value) {
    if (value == null) {
      return "missing";
    }
    BigDecimal rounded = new BigDecimal(value).round(new java.math.MathContext(15));
    return rounded.signum() == 0 ? "0" : rounded.stripTrailingZeros().toPlainString();
  }

  /** JSON's quotes are YAML's. */
  private static String quoted(String text) {
    try {
      return JSON.writeValueAsString(text);
    } catch (IOException e) {
      throw new IllegalStateException("Cannot quote " + text, e);
    }
  }
}
