package phrasecensus.spark;

import java.io.IOException;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileStatus;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import phrasecensus.spark.parquet.ColumnScan;
import phrasecensus.spark.parquet.TableFile;
import phrasecensus.tables.TableSchema;

/**
 * The tables that an earlier run left, as far as their rows may be taken over: which {@link
 * ReadingKey} each input file had, and in which part its rows lie.
 */
final class EarlierReading implements Serializable {
  private static final long serialVersionUID = 1L;

  /** Under this key the keys of a part's files stand in its file of table {@code files}, a line each. */
  static final String KEYS = "phrasecensus.inputs";

  private final String folder;
  private final TreeMap<String, ArrayList<String>> keysByPart = new TreeMap<>();
  private final HashMap<String, String> partByKey = new HashMap<>();

  private EarlierReading(String folder) {
    this.folder = folder;
  }

  /** Nothing to take over. */
  static EarlierReading none() {
    return new EarlierReading("");
  }

  /** What the tables below a folder hold; nothing when they are not this program's or not there. */
  static EarlierReading in(Path tables, Configuration configuration) {
    EarlierReading earlier = new EarlierReading(tables.toString());
    try {
      FileSystem fileSystem = tables.getFileSystem(configuration);
      Path files = new Path(tables, "files");
      if (!fileSystem.exists(files)) {
        return none();
      }
      for (FileStatus status : fileSystem.listStatus(files)) {
        String name = status.getPath().getName();
        String keys = TableFile.remarks(status.getPath(), configuration).get(KEYS);
        if (keys != null) {
          ArrayList<String> list = new ArrayList<>(Arrays.asList(keys.split("\n", -1)));
          earlier.keysByPart.put(name, list);
          list.stream()
              .filter(key -> !key.isEmpty())
              .forEach(key -> earlier.partByKey.put(key, name));
        }
      }
      return earlier;
    } catch (IOException | RuntimeException e) {
      // Damaged tables are a reason to make them anew, not to fail.
      return none();
    }
  }

  boolean isEmpty() {
    return partByKey.isEmpty();
  }

  String folder() {
    return folder;
  }

  /** Whether a part holds just these files, none of them changed. */
  boolean hasPart(String name, List<String> keys) {
    return !keys.isEmpty() && !keys.contains("") && keys.equals(keysByPart.get(name));
  }

  /** The part that has the rows of a file; null for a key that no file had. */
  String part(String key) {
    return partByKey.get(key);
  }

  /** What became of the files of a part. */
  List<BucketResult.FileOutcome> outcomes(String role, String part, Configuration configuration)
      throws IOException {
    Map<String, Integer> notes = new HashMap<>();
    try (ColumnScan scan =
        ColumnScan.open(
            new Path(folder + "/solos", part), List.of("file", "notes"), configuration)) {
      for (Object[] row = scan.next(); row != null; row = scan.next()) {
        notes.put((String) row[0], (Integer) row[1]);
      }
    }
    List<BucketResult.FileOutcome> outcomes = new ArrayList<>();
    try (ColumnScan scan =
        ColumnScan.open(
            new Path(folder + "/files", part),
            List.of("file", "sha256", "reason"),
            configuration)) {
      for (Object[] row = scan.next(); row != null; row = scan.next()) {
        String file = (String) row[0];
        outcomes.add(
            new BucketResult.FileOutcome(
                role,
                file,
                (String) row[1],
                (String) row[2],
                notes.getOrDefault(file, 0),
                true));
      }
    }
    return outcomes;
  }

  /** Opens the rows. */
  EarlierRows rows(Function<String, TableSchema> schemas, Configuration configuration) {
    return new EarlierRows(folder, schemas, configuration);
  }
}
