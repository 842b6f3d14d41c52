package phrasecensus.store;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import phrasecensus.store.parquet.TableFile;

/**
 * What a task of the reading job reports back: counts and digests, never rows.
 *
 * @param name of the part, the same in every table
 * @param files one element an input file
 * @param tables the file of the part in each table
 * @param damaged files of the study as it was, relative to its folder, that are not as they were
 *     written and so were not taken over
 */
public record BucketResult(
    String name,
    List<FileOutcome> files,
    Map<String, TableFile.Stored> tables,
    List<String> damaged)
    implements Serializable {
  public BucketResult {
    files = new ArrayList<>(files);
    tables = new TreeMap<>(tables);
    damaged = new ArrayList<>(damaged);
  }

  /**
   * What became of a file.
   *
   * @param sha256 null when its bytes could not be read
   * @param rejection null when it was read
   * @param line digest of its line, as in the table of files; null for none
   * @param reused true when its rows are those of an earlier run
   * @param lost whether it was there when the folder was listed, and gone or failing when it was
   *     read
   * @param fault where the program failed on it; null unless that is why it was rejected
   */
  public record FileOutcome(
      String role,
      String file,
      String sha256,
      String rejection,
      int notes,
      String line,
      boolean reused,
      boolean lost,
      String fault)
      implements Serializable {}
}
