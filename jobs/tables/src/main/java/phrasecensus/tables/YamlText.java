package phrasecensus.tables;

import com.fasterxml.jackson.core.JacksonException;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;

/** YAML that people wrote: a key that stands twice is refused, and a fault is told by its line. */
public final class YamlText {
  private YamlText() {}

  /**
   * The root of a text.
   *
   * @param name what the file is and how it is called, as in {@code study file my.yaml}
   * @return a missing node for an empty text
   * @throws InputException naming the line
   */
  public static JsonNode root(String name, String text) {
    try {
      return YAMLMapper.builder()
          .enable(JsonParser.Feature.STRICT_DUPLICATE_DETECTION)
          .build()
          .readTree(text);
    } catch (JacksonException e) {
      throw new InputException(
          "Cannot read the "
              + name
              + ", line "
              + (e.getLocation() == null ? "?" : e.getLocation().getLineNr())
              + ": it is not YAML ("
              + e.getOriginalMessage().lines().findFirst().orElse("").strip()
              + ").",
          e);
    }
  }
}
