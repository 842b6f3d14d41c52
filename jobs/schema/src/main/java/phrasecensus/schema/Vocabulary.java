package phrasecensus.schema;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.TreeMap;

/**
 * The words that a column may hold.
 *
 * @param name snake_case
 * @param meaning what the words say, without a full stop
 * @param words in their order, each with its meaning
 */
record Vocabulary(String name, String meaning, Map<String, String> words) {
  /**
   * Reads {@code vocabularies.json}.
   *
   * @throws SchemaException if a vocabulary has no words, or two of one constant
   */
  static Map<String, Vocabulary> all(JsonNode json) {
    Map<String, Vocabulary> all = new TreeMap<>();
    json.properties()
        .forEach(
            entry -> {
              Map<String, String> words = new LinkedHashMap<>();
              entry
                  .getValue()
                  .path("words")
                  .properties()
                  .forEach(word -> words.put(word.getKey(), word.getValue().textValue()));
              String name = entry.getKey();
              if (words.isEmpty()) {
                throw new SchemaException("Vocabulary " + name + " has no words");
              }
              long constants = words.keySet().stream().map(JavaName::constant).distinct().count();
              if (constants < words.size()) {
                throw new SchemaException("Vocabulary " + name + " has two words of one constant");
              }
              all.put(
                  name, new Vocabulary(name, entry.getValue().path("meaning").textValue(), words));
            });
    return all;
  }

  String className() {
    return JavaName.type(name);
  }

  /** The source of its enum. */
  String source(String packageName) {
    StringBuilder source = new StringBuilder();
    String type = className();
    source.append("package " + packageName + ";\n\n");
    source.append("import phrasecensus.tables.Word;\n\n");
    source.append("/** " + JavaName.prose(meaning) + ". Written by the build from ");
    source.append("{@code schemas/vocabularies.json}. */\n");
    source.append("public enum " + type + " implements Word {\n");
    String separator = "";
    for (Map.Entry<String, String> word : words.entrySet()) {
      source.append(separator);
      source.append("  /** " + JavaName.sentence(word.getValue()) + " */\n");
      source.append("  " + JavaName.constant(word.getKey()) + "(" + JavaName.text(word.getKey()));
      source.append(")");
      separator = ",\n";
    }
    source.append(";\n\n  private final String word;\n\n");
    source.append("  " + type + "(String word) {\n    this.word = word;\n  }\n\n");
    source.append("  @Override\n  public String word() {\n    return word;\n  }\n\n");
    source.append("  /**\n   * The constant of a word; null for null.\n   *\n");
    source.append("   * @throws IllegalArgumentException if it is none of these\n   */\n");
    source.append("  public static " + type + " of(String word) {\n");
    source.append("    if (word == null) {\n      return null;\n    }\n");
    source.append("    return switch (word) {\n");
    for (String word : words.keySet()) {
      source.append("      case " + JavaName.text(word) + " -> " + JavaName.constant(word) + ";\n");
    }
    source.append("      default ->\n          throw new IllegalArgumentException(\n");
    source.append("              \"Invalid word: '\" + word + \"' is no " + name.replace('_', ' '));
    source.append("\");\n    };\n  }\n}\n");
    return source.toString();
  }
}
