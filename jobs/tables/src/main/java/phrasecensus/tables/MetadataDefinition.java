package phrasecensus.tables;

/**
 * Where a folder's metadata stands.
 *
 * @param file path of a CSV file; relative to the folder of scores unless absolute; empty to look
 *     for {@link #USUAL_FILE} in the folder, then beside it
 * @param key column that names the score, by its path in the folder with or without extension; empty
 *     for a column {@code file}, else for the first column whose values name scores of the folder
 */
public record MetadataDefinition(String file, String key) {
  /** Name of a metadata file that no one had to name. */
  public static final String USUAL_FILE = "solos.csv";

  /** Look for the usual file; no matter when there is none. */
  public static final MetadataDefinition DEFAULT = new MetadataDefinition("", "");

  /** True when a person named the file, so that it must be there. */
  public boolean isNamed() {
    return !file.isEmpty();
  }
}
