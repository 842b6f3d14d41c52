package phrasecensus.spark;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import phrasecensus.spark.parquet.TableFile;

/**
 * What a task of the reading job reports back: counts and digests, never rows.
 *
 * @param files one element an input file
 * @param tables rows and digest of each table
 */
record BucketResult(List<FileOutcome> files, Map<String, TableFile.Written> tables)
    implements Serializable {
  BucketResult {
    files = new ArrayList<>(files);
    tables = new TreeMap<>(tables);
  }

  /**
   * What became of a file.
   *
   * @param sha256 null when its bytes could not be read
   * @param rejection null when it was read
   * @param reused true when its rows are those of an earlier run
   * @param fault where the program failed on it; null unless that is why it was rejected
   */
  record FileOutcome(
      String role,
      String file,
      String sha256,
      String rejection,
      int notes,
      boolean reused,
      String fault)
      implements Serializable {}
}
