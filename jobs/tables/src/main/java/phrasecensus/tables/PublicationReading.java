package phrasecensus.tables;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.function.Function;

/** Reads how a study file wants its tables cited. */
final class PublicationReading {
  /** Keys of a study file that are read here. */
  static final List<String> KEYS = List.of("authors", "version", "date", "doi", "licence");

  private static final List<String> AUTHOR_KEYS =
      List.of("family", "given", "affiliation", "orcid");
  private static final String EXAMPLE =
      "'authors: [\"Lark, Ada\", {family: Reed, given: Bo, orcid: 0000-0002-1825-0097}]'";

  private final Function<String, InputException> unusable;

  /**
   * @param unusable makes the exception that names the study file, from the sentence that says why
   */
  PublicationReading(Function<String, InputException> unusable) {
    this.unusable = unusable;
  }

  Publication publication(JsonNode root) {
    List<Publication.Author> authors = new ArrayList<>();
    JsonNode named = root.path("authors");
    if (named.isArray()) {
      named.forEach(each -> authors.add(author(each)));
    } else if (!named.isMissingNode() && !named.isNull()) {
      authors.add(author(named));
    }
    Publication publication =
        new Publication(
            authors,
            value(root, "version"),
            date(value(root, "date")),
            doi(value(root, "doi")),
            value(root, "licence"));
    if (authors.isEmpty() && !publication.isNotStated()) {
      throw unusable.apply(
          "it says how its tables are to be cited and names no authors. Add " + EXAMPLE + ".");
    }
    return publication;
  }

  private Publication.Author author(JsonNode node) {
    if (node.isObject()) {
      for (Iterator<String> names = node.fieldNames(); names.hasNext(); ) {
        String key = names.next();
        if (!AUTHOR_KEYS.contains(key)) {
          throw unusable.apply(
              "unknown key '"
                  + key
                  + "' of an author. Known keys: "
                  + String.join(", ", AUTHOR_KEYS)
                  + ".");
        }
      }
      String orcid = value(node, "orcid").replaceFirst("^https?://orcid\\.org/", "");
      if (!orcid.isEmpty() && !isOrcid(orcid)) {
        throw unusable.apply(
            "'orcid' of an author is '"
                + orcid
                + "', and that is no ORCID: sixteen digits as in 0000-0002-1825-0097, the last of"
                + " which follows from the others. Copy it once more.");
      }
      return author(value(node, "family"), value(node, "given"), value(node, "affiliation"), orcid);
    }
    String[] parts = node.asText().split(",", 2);
    return author(parts[0].strip(), parts.length == 2 ? parts[1].strip() : "", "", "");
  }

  private Publication.Author author(String family, String given, String affiliation, String orcid) {
    if (family.isEmpty()) {
      throw unusable.apply("an author has no name. Write it as " + EXAMPLE + ".");
    }
    return new Publication.Author(family, given, affiliation, orcid);
  }

  /**
   * Whether the last character is the check digit of the others, by ISO 7064 MOD 11-2 (as ORCID
   * publishes it, "Structure of the ORCID Identifier").
   */
  private static boolean isOrcid(String text) {
    if (!text.matches("\\d{4}-\\d{4}-\\d{4}-\\d{3}[\\dX]")) {
      return false;
    }
    String digits = text.replace("-", "");
    int total = 0;
    for (int i = 0; i < 15; i++) {
      total = (total + digits.charAt(i) - '0') * 2;
    }
    int check = (12 - total % 11) % 11;
    return digits.charAt(15) == (check == 10 ? 'X' : (char) ('0' + check));
  }

  private String date(String text) {
    if (!text.isEmpty()) {
      try {
        LocalDate.parse(text);
      } catch (DateTimeParseException e) {
        throw unusable.apply("'date' is '" + text + "'. Write dates as 2026-03-14.");
      }
    }
    return text;
  }

  private String doi(String text) {
    String doi = text.replaceFirst("^(?:https?://(?:dx\\.)?doi\\.org/|doi:\\s*)", "");
    if (!doi.isEmpty() && !doi.matches("10\\.\\d{4,9}(\\.\\d+)*/\\S+")) {
      throw unusable.apply("'doi' is '" + text + "'. Write it as 10.1234/abcd.");
    }
    return doi;
  }

  private String value(JsonNode node, String key) {
    JsonNode value = node.path(key);
    if (value.isMissingNode() || value.isNull()) {
      return "";
    }
    if (!value.isValueNode()) {
      throw unusable.apply("'" + key + "' must be a single value.");
    }
    if (value.isFloatingPointNumber()) {
      // YAML takes 1.10 for the number 1.1.
      throw unusable.apply(
          "'" + key + "' is a number with a point. Put it between quotation marks, as in '1.10'.");
    }
    return value.asText().strip();
  }
}
