package phrasecensus.store;

import java.io.IOException;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import phrasecensus.store.parquet.ColumnScan;
import phrasecensus.store.parquet.FileEnd;
import phrasecensus.store.parquet.TableFile;
import phrasecensus.tables.FileList;
import phrasecensus.tables.TableSchemas;

/**
 * The tables that an earlier run left, as far as their rows may be taken over: which key each input
 * file had (what its rows depend on, as a short digest), and in which part its rows lie.
 */
public final class EarlierReading implements Serializable {
  private static final long serialVersionUID = 1L;

  /**
   * Under this key the keys of a part's files stand in its file of table {@code files}, a line
   * each.
   */
  public static final String KEYS = "phrasecensus.inputs";

  private final TreeMap<Part, ArrayList<String>> keysByPart = new TreeMap<>();
  private final HashMap<String, Part> partByKey = new HashMap<>();
  private final TreeMap<Part, TreeMap<String, String>> sumsByPart = new TreeMap<>();
  private final ArrayList<String> damaged = new ArrayList<>();

  /**
   * Where earlier tables lie.
   *
   * @param tables the folder with one folder a table
   * @param list of their files, in paths that begin with the name of that folder
   * @param current whether they are those of the study, so that people are told of damage
   */
  record Source(String tables, FileList list, boolean current) {}

  private static final String FILES = "files";

  private EarlierReading() {}

  /**
   * The files of one name, one in each table.
   *
   * @param folder with one folder a table
   * @param current whether it is a part of the study as it is
   */
  public record Part(String folder, String name, boolean current)
      implements Serializable, Comparable<Part> {
    @Override
    public int compareTo(Part other) {
      int order = folder.compareTo(other.folder);
      return order == 0 ? name.compareTo(other.name) : order;
    }

    Path file(String table) {
      return new Path(folder + "/" + table, name);
    }

    /** The file of a table relative to the folder of the study. */
    String path(String table) {
      return new Path(folder).getName() + "/" + table + "/" + name;
    }
  }

  /** Nothing to take over. */
  public static EarlierReading none() {
    return new EarlierReading();
  }

  /**
   * What the tables below some folders hold: parts of which a list of this program's names the file
   * in every table. Those that are damaged are a reason to read their files anew, not to fail.
   */
  static EarlierReading in(List<Source> sources, Configuration configuration) {
    EarlierReading earlier = new EarlierReading();
    for (Source source : sources) {
      String files = new Path(source.tables()).getName() + "/" + FILES + "/";
      for (String path : source.list().files().keySet()) {
        if (path.startsWith(files)) {
          earlier.add(
              source,
              new Part(source.tables(), path.substring(files.length()), source.current()),
              configuration);
        }
      }
    }
    return earlier;
  }

  private void add(Source source, Part part, Configuration configuration) {
    TreeMap<String, String> sums = new TreeMap<>();
    for (String table : TableSchemas.OF_READING) {
      String sum = source.list().files().get(part.path(table));
      if (sum == null) {
        // The program that wrote it did not know the table, or the list is damaged.
        return;
      }
      sums.put(table, sum);
    }
    Path file = part.file(FILES);
    try {
      FileEnd end = new FileEnd();
      FileSystem fileSystem = file.getFileSystem(configuration);
      if (!sums.get(FILES).equals(FolderTree.sha256(fileSystem, file, end))) {
        throw new IOException(file + " is not as it was written");
      }
      String keys = TableFile.remarks(file, end, configuration).get(KEYS);
      if (keys != null) {
        ArrayList<String> list = new ArrayList<>(Arrays.asList(keys.split("\n", -1)));
        keysByPart.put(part, list);
        sumsByPart.put(part, sums);
        list.stream().filter(key -> !key.isEmpty()).forEach(key -> partByKey.put(key, part));
      }
    } catch (IOException | RuntimeException e) {
      if (part.current()) {
        damaged.add(part.path(FILES));
      }
    }
  }

  /** Files of the study, relative to its folder, that were found damaged here. */
  public List<String> damaged() {
    return List.copyOf(damaged);
  }

  /** SHA-256 of the files of a part by table. */
  public Map<String, String> sums(Part part) {
    return sumsByPart.get(part);
  }

  /** The tables in which the file of a part is gone or not as it was written. */
  List<String> differing(Part part, Configuration configuration) {
    List<String> differing = new ArrayList<>();
    for (Map.Entry<String, String> sum : sums(part).entrySet()) {
      Path file = part.file(sum.getKey());
      try {
        if (!sum.getValue().equals(FolderTree.sha256(file.getFileSystem(configuration), file))) {
          differing.add(sum.getKey());
        }
      } catch (IOException e) {
        differing.add(sum.getKey());
      }
    }
    return differing;
  }

  public boolean isEmpty() {
    return partByKey.isEmpty();
  }

  /** A part of that name that holds just these files, none of them changed; null without. */
  public Part whole(String name, List<String> keys) {
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
  public Part part(String key) {
    return partByKey.get(key);
  }

  /** What became of the files of a part. */
  public static List<BucketResult.FileOutcome> outcomes(
      String role, Part part, Configuration configuration) throws IOException {
    Map<String, Integer> notes = new HashMap<>();
    try (ColumnScan scan =
        ColumnScan.open(part.file("solos"), List.of("file", "notes"), configuration)) {
      for (Object[] row = scan.next(); row != null; row = scan.next()) {
        notes.put((String) row[0], (Integer) row[1]);
      }
    }
    List<BucketResult.FileOutcome> outcomes = new ArrayList<>();
    try (ColumnScan scan =
        ColumnScan.open(
            part.file("files"),
            List.of("file", "sha256", "reason", "line_digest"),
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
                (String) row[3],
                true,
                false,
                null));
      }
    }
    return outcomes;
  }
}
