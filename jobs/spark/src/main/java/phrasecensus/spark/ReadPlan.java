package phrasecensus.spark;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import phrasecensus.tables.InputFile;

/**
 * How the files of a study are shared out: buckets of consecutive files of like size. Depends on
 * the files alone, never on cores, so that the same input makes the same files of tables.
 *
 * @param buckets every input file once, in order
 */
public record ReadPlan(List<Bucket> buckets) {
  /** Each bucket makes a file of every table, which costs some time whatever is in it. */
  private static final long SMALLEST = 4L << 20;

  private static final long LARGEST = 32L << 20;
  private static final int USUAL_BUCKETS = 8;
  private static final int MOST_FILES = 1000;

  /**
   * The work of one task.
   *
   * @param role role of all its files
   * @param number place among the buckets of the role from 0
   * @param files in order
   */
  public record Bucket(String role, int number, List<InputFile> files) implements Serializable {
    public Bucket {
      files = new ArrayList<>(files);
    }

    /** Name of the file of a table that the bucket writes, without folder. */
    public String fileName() {
      return String.format(Locale.ROOT, "%s-%05d.parquet", role, number);
    }

    private long bytes() {
      return files.stream().mapToLong(InputFile::bytes).sum();
    }
  }

  /** The buckets in the order in which to begin them, so that no long one is left for the end. */
  List<Bucket> largestFirst() {
    List<Bucket> ordered = new ArrayList<>(buckets);
    ordered.sort(Comparator.comparingLong(Bucket::bytes).reversed());
    return ordered;
  }

  /** Shares files out: the roles apart, so that either can be read anew without the other. */
  public static ReadPlan of(List<InputFile> files) {
    Map<String, List<InputFile>> byRole = new TreeMap<>();
    for (InputFile file : files) {
      byRole.computeIfAbsent(file.role(), role -> new ArrayList<>()).add(file);
    }
    List<Bucket> buckets = new ArrayList<>();
    byRole.forEach((role, ofRole) -> addBuckets(role, ofRole, buckets));
    return new ReadPlan(List.copyOf(buckets));
  }

  /**
   * Buckets end where the names of the files say so, once they are large enough: a file that comes
   * or goes moves the ends near it only, and the tables of all other buckets stay as they are.
   */
  private static void addBuckets(String role, List<InputFile> files, List<Bucket> buckets) {
    long total = files.stream().mapToLong(InputFile::bytes).sum();
    // Powers of two, so that small changes of the total leave them alone.
    long usual = Long.highestOneBit(Math.max(SMALLEST, Math.min(LARGEST, total / USUAL_BUCKETS)));
    long average = Math.max(1, total / files.size());
    long oneIn = Long.highestOneBit(Math.max(1, usual / 2 / average));
    List<InputFile> current = new ArrayList<>();
    long bytes = 0;
    int number = 0;
    for (InputFile file : files) {
      if (!current.isEmpty()
          && (bytes + file.bytes() / 2 > 2 * usual || current.size() >= MOST_FILES)) {
        buckets.add(new Bucket(role, number++, current));
        current = new ArrayList<>();
        bytes = 0;
      }
      current.add(file);
      bytes += file.bytes();
      if (bytes >= usual / 2 && (mixed(file.file()) & (oneIn - 1)) == 0) {
        buckets.add(new Bucket(role, number++, current));
        current = new ArrayList<>();
        bytes = 0;
      }
    }
    if (!current.isEmpty()) {
      buckets.add(new Bucket(role, number, current));
    }
  }

  /** Every character of a name counts in every bit (the finalizer of MurmurHash3). */
  private static long mixed(String name) {
    long hash = name.hashCode();
    hash = (hash ^ (hash >>> 33)) * 0xff51afd7ed558ccdL;
    hash = (hash ^ (hash >>> 33)) * 0xc4ceb9fe1a85ec53L;
    return hash ^ (hash >>> 33);
  }
}
