package phrasecensus.store;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.TreeMap;
import phrasecensus.store.parquet.TableFile;
import phrasecensus.tables.Manifest;

/** The files of the next tables, as those say that wrote or copied them. */
public final class WrittenTables {
  private final TreeMap<String, TreeMap<String, TableFile.Stored>> tables = new TreeMap<>();

  /** Takes a file in; one that was there under its name is replaced. */
  public void add(String table, String file, TableFile.Stored stored) {
    tables.computeIfAbsent(table, name -> new TreeMap<>()).put(file, stored);
  }

  /** What a table holds, file by file and together. */
  public Manifest.Table table(String table, int version) {
    Map<String, Manifest.Part> parts = new LinkedHashMap<>();
    TableFile.Written all = TableFile.Written.NOTHING;
    for (Map.Entry<String, TableFile.Stored> entry : files(table).entrySet()) {
      TableFile.Written written = entry.getValue().written();
      all = all.plus(written);
      parts.put(entry.getKey(), new Manifest.Part(written.rows(), written.digest()));
    }
    return new Manifest.Table(version, all.rows(), all.digest(), parts);
  }

  /** Forgets the files: they are the current ones now. */
  void clear() {
    tables.clear();
  }

  /** The files of a table by name. */
  Map<String, TableFile.Stored> files(String table) {
    return tables.getOrDefault(table, new TreeMap<>());
  }
}
