package phrasecensus.tables;

import java.util.List;

/**
 * Shares that make a whole, as the note values of a solo do.
 *
 * @param key stable name in tables
 * @param name name in words
 * @param classes keys of the statistics that are its shares
 */
public record MixDefinition(String key, String name, List<String> classes) {
  public MixDefinition {
    classes = List.copyOf(classes);
  }
}
