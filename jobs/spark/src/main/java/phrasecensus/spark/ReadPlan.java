package phrasecensus.spark;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;

/**
 * How the files of a study are shared out: buckets of consecutive files of like size. Depends on the
 * files alone, never on cores, so that the same input makes the same files of tables.
 *
 * @param buckets every input file once, in order
 */
public record ReadPlan(List<Bucket> buckets) {
  private static final long SMALLEST = 1L << 20;
  private static final long LARGEST = 32L << 20;
  private static final int USUAL_BUCKETS = 8;
  private static final int MOST_FILES = 1000;

  /**
   * The work of one task.
   *
   * @param number place in the plan from 0; part of the names of the files it writes
   * @param files in order
   */
  public record Bucket(int number, List<InputFile> files) implements Serializable {
    public Bucket {
      files = new ArrayList<>(files);
    }
  }

  /** Shares files out. */
  public static ReadPlan of(List<InputFile> files) {
    long total = files.stream().mapToLong(InputFile::bytes).sum();
    long target = Math.max(SMALLEST, Math.min(LARGEST, total / USUAL_BUCKETS));
    List<Bucket> buckets = new ArrayList<>();
    List<InputFile> current = new ArrayList<>();
    long bytes = 0;
    for (InputFile file : files) {
      if (!current.isEmpty()
          && (bytes + file.bytes() / 2 > target || current.size() >= MOST_FILES)) {
        buckets.add(new Bucket(buckets.size(), current));
        current = new ArrayList<>();
        bytes = 0;
      }
      current.add(file);
      bytes += file.bytes();
    }
    if (!current.isEmpty()) {
      buckets.add(new Bucket(buckets.size(), current));
    }
    return new ReadPlan(List.copyOf(buckets));
  }
}
