package phrasecensus.tables;

/**
 * Where a folder's metadata stands.
 *
 * @param file path of a CSV file; relative to the folder of scores unless absolute
 * @param key column that names the score: its path in the folder, with or without extension
 * @param required false when the file may be missing
 */
public record MetadataDefinition(String file, String key, boolean required) {
  /** {@code solos.csv} with a column {@code file}, when there is one. */
  public static final MetadataDefinition DEFAULT =
      new MetadataDefinition("solos.csv", "file", false);
}
