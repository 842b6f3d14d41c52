package phrasecensus.tables;

import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Where a folder's metadata stands, and how to read it.
 *
 * @param file path of a CSV file; relative to the folder of scores unless absolute; empty to look
 *     for {@link #USUAL_FILE} in the folder, then beside it
 * @param key column that names the score, by its path in the folder with or without extension;
 *     empty for a column {@code file}, else for the first column whose values name scores of the
 *     folder
 * @param columns name that a column gets to its name in the file, as in {@code performer} to {@code
 *     Spieler}; columns that are not in it keep their names
 * @param types what the cells of a column are, by the name that the column gets; of columns that
 *     are not in it, all cells tell
 * @param delimiter what stands between the columns, one of {@link #DELIMITERS}; empty to guess it
 * @param encoding one of {@link #ENCODINGS}; empty to guess it
 */
public record MetadataDefinition(
    String file,
    String key,
    Map<String, String> columns,
    Map<String, MetadataType> types,
    String delimiter,
    String encoding) {
  /** Name of a metadata file that no one had to name. */
  public static final String USUAL_FILE = "solos.csv";

  /** What may stand between the columns. */
  public static final List<String> DELIMITERS = List.of("comma", "semicolon", "tab");

  /** In which a metadata file may be written. */
  public static final List<String> ENCODINGS = List.of("utf-8", "windows-1252");

  /** Look for the usual file; no matter when there is none. */
  public static final MetadataDefinition DEFAULT = new MetadataDefinition("", "");

  public MetadataDefinition {
    columns = Collections.unmodifiableMap(new TreeMap<>(columns));
    types = Collections.unmodifiableMap(new TreeMap<>(types));
  }

  /** A file whose columns have the names they should have, and whose form is guessed. */
  public MetadataDefinition(String file, String key) {
    this(file, key, Map.of(), "", "");
  }

  /** A file whose cells tell what they are. */
  public MetadataDefinition(
      String file, String key, Map<String, String> columns, String delimiter, String encoding) {
    this(file, key, columns, Map.of(), delimiter, encoding);
  }

  /** True when a person named the file, so that it must be there. */
  public boolean isNamed() {
    return !file.isEmpty();
  }
}
