package phrasecensus.tables;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;

/**
 * What the small file says that names the current folders of a study, where a store cannot rename a
 * folder in one step. Both lie in the study folder.
 *
 * @param generation the folder with {@code manifest.json} and {@code tables/}, laid out as a study
 *     folder on a disk
 * @param report the folder of the report's pages; null before there is one
 */
@JsonPropertyOrder({"generation", "report"})
@JsonInclude(JsonInclude.Include.ALWAYS)
public record StudyPointer(String generation, String report) {
  private static final String PLAIN_NAME = "[a-z][a-z0-9-]*";
  private static final String CHECK = "check";

  private static final ObjectMapper JSON =
      new ObjectMapper()
          .enable(SerializationFeature.INDENT_OUTPUT)
          .disable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES);

  /**
   * Reads a pointer.
   *
   * @param name how messages call the file
   * @throws InputException if it is not one, or names anything but folders beside it
   */
  public static StudyPointer parse(String name, byte[] bytes) {
    StudyPointer pointer = null;
    IOException cause = null;
    try {
      JsonNode node = JSON.readTree(bytes);
      StudyPointer read = JSON.treeToValue(node, StudyPointer.class);
      if (read != null && read.check().equals(node.path(CHECK).asText())) {
        pointer = read;
      }
    } catch (IOException e) {
      cause = e;
    }
    if (pointer == null
        || pointer.generation() == null
        || !pointer.generation().matches(PLAIN_NAME)
        || pointer.report() != null && !pointer.report().matches(PLAIN_NAME)) {
      throw new InputException(
          "Cannot read " + name + ": it does not name the folders of a study.", cause);
    }
    return pointer;
  }

  /** A checksum of what the pointer names: a file of that name alone proves nothing. */
  private String check() {
    return Sha256.of(
        ("Phrase Census " + generation + " " + report).getBytes(StandardCharsets.UTF_8));
  }

  /** The pointer as JSON text, ending in a line break. */
  public String json() {
    try {
      ObjectNode node = JSON.valueToTree(this);
      node.put(CHECK, check());
      return new String(JSON.writeValueAsBytes(node), StandardCharsets.UTF_8) + "\n";
    } catch (IOException e) {
      throw new IllegalStateException("Cannot write the pointer of a study", e);
    }
  }
}
