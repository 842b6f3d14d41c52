package phrasecensus.spark;

import java.io.IOException;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileStatus;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import phrasecensus.spark.parquet.ColumnScan;
import phrasecensus.spark.parquet.TableFile;

/**
 * The tables that an earlier run left, as far as their rows may be taken over: which {@link
 * ReadingKey} each input file had, and in which part its rows lie.
 */
final class EarlierReading implements Serializable {
  private static final long serialVersionUID = 1L;

  /** Under this key the keys of a part's files stand in its file of table {@code files}, a line each. */
  static final String KEYS = "phrasecensus.inputs";

  private final TreeMap<Part, ArrayList<String>> keysByPart = new TreeMap<>();
  private final HashMap<String, Part> partByKey = new HashMap<>();

  private EarlierReading() {}

  /**
   * The files of one name, one in each table.
   *
   * @param folder with one folder a table
   */
  record Part(String folder, String name) implements Serializable, Comparable<Part> {
    @Override
    public int compareTo(Part other) {
      int order = folder.compareTo(other.folder);
      return order == 0 ? name.compareTo(other.name) : order;
    }

    Path file(String table) {
      return new Path(folder + "/" + table, name);
    }
  }

  /** Nothing to take over. */
  static EarlierReading none() {
    return new EarlierReading();
  }

  /**
   * What the tables below some folders hold. Parts that are not this program's, not whole or
   * damaged are a reason to read their files anew, not to fail.
   */
  static EarlierReading in(List<Path> folders, Configuration configuration) {
    EarlierReading earlier = new EarlierReading();
    for (Path tables : folders) {
      Path files = new Path(tables, "files");
      try {
        FileSystem fileSystem = tables.getFileSystem(configuration);
        if (fileSystem.exists(files)) {
          for (FileStatus status : fileSystem.listStatus(files)) {
            if (status.getPath().getName().endsWith(".parquet")) {
              earlier.add(new Part(tables.toString(), status.getPath().getName()), configuration);
            }
          }
        }
      } catch (IOException e) {
        // Not to be listed.
      }
    }
    return earlier;
  }

  private void add(Part part, Configuration configuration) {
    try {
      String keys = TableFile.remarks(part.file("files"), configuration).get(KEYS);
      if (keys != null) {
        ArrayList<String> list = new ArrayList<>(Arrays.asList(keys.split("\n", -1)));
        keysByPart.put(part, list);
        list.stream().filter(key -> !key.isEmpty()).forEach(key -> partByKey.put(key, part));
      }
    } catch (IOException | RuntimeException e) {
      // Damaged.
    }
  }

  boolean isEmpty() {
    return partByKey.isEmpty();
  }

  /** A part of that name that holds just these files, none of them changed; null without. */
  Part whole(String name, List<String> keys) {
    if (keys.isEmpty() || keys.contains("")) {
      return null;
    }
    return keysByPart.entrySet().stream()
        .filter(entry -> entry.getKey().name().equals(name) && entry.getValue().equals(keys))
        .map(Map.Entry::getKey)
        .findFirst()
        .orElse(null);
  }

  /** The part that has the rows of a file; null for a key that no file had. */
  Part part(String key) {
    return partByKey.get(key);
  }

  /** What became of the files of a part. */
  static List<BucketResult.FileOutcome> outcomes(
      String role, Part part, Configuration configuration)
      throws IOException {
    Map<String, Integer> notes = new HashMap<>();
    try (ColumnScan scan =
        ColumnScan.open(
            part.file("solos"), List.of("file", "notes"), configuration)) {
      for (Object[] row = scan.next(); row != null; row = scan.next()) {
        notes.put((String) row[0], (Integer) row[1]);
      }
    }
    List<BucketResult.FileOutcome> outcomes = new ArrayList<>();
    try (ColumnScan scan =
        ColumnScan.open(
            part.file("files"),
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
                true,
                null));
      }
    }
    return outcomes;
  }
}
