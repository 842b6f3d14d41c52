package phrasecensus.rows;

import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import phrasecensus.music.changes.Changes;
import phrasecensus.readers.ReadResult;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.SoloReader;
import phrasecensus.tables.Metadata;

/** Lead sheets that a metadata column {@code changes} names, as bars in text beside it. */
public final class LeadSheets {
  private LeadSheets() {}

  /** Opens a score beside the metadata. */
  @FunctionalInterface
  public interface Opening {
    /**
     * @param path as the metadata have it
     * @return its bytes; null when there is no such file
     */
    byte[] bytes(String path);
  }

  /** What lead sheets the metadata name, by the key of the row. */
  public static Map<String, String> named(Metadata metadata) {
    Map<String, String> named = new TreeMap<>();
    metadata
        .valuesOf(SoloFacts.CHANGES)
        .forEach(
            (key, changes) -> {
              if (SoloFacts.namesScore(changes)) {
                named.put(key, changes.strip().replace('\\', '/'));
              }
            });
    return named;
  }

  /**
   * The metadata with the bars of every lead sheet that can be read; what cannot be is told with
   * the solo that names it.
   */
  public static Metadata written(Metadata metadata, Opening opening) {
    Map<String, Optional<String>> sheets = new TreeMap<>();
    Map<String, String> bars = new TreeMap<>();
    named(metadata)
        .forEach(
            (key, path) ->
                sheets
                    .computeIfAbsent(path, name -> bars(name, opening.bytes(name)))
                    .ifPresent(text -> bars.put(key, text)));
    return bars.isEmpty() ? metadata : metadata.with(SoloFacts.CHANGES_BARS, bars);
  }

  private static Optional<String> bars(String name, byte[] bytes) {
    if (bytes == null) {
      return Optional.empty();
    }
    ReadResult sheet = SoloReader.read(bytes, name, ReadSettings.defaults());
    return sheet.isRead() ? Optional.of(Changes.of(sheet.solo()).text()) : Optional.empty();
  }
}
