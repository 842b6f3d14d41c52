package phrasecensus.spark;

import java.io.IOException;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.locks.ReadWriteLock;
import java.util.concurrent.locks.ReentrantReadWriteLock;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.security.AccessControlException;
import org.apache.spark.TaskContext;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.util.LongAccumulator;
import org.apache.spark.util.SerializableConfiguration;
import phrasecensus.rows.FileRows;
import phrasecensus.store.BucketResult;
import phrasecensus.store.EarlierReading;
import phrasecensus.store.EarlierRows;
import phrasecensus.store.InputBytes;
import phrasecensus.store.LostFile;
import phrasecensus.store.PartFiles;
import phrasecensus.store.parquet.TableFile;
import phrasecensus.tables.InputFile;
import phrasecensus.tables.Metadata;
import phrasecensus.tables.PhraseMarks;
import phrasecensus.tables.Sha256;
import phrasecensus.tables.StudySettings;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSchemas;

/**
 * Builds every table of reading in one pass: each file is opened, read and analysed once, in the
 * task that has its bucket, and that task writes its part of each table. Nothing is shuffled and no
 * row comes to the driver.
 */
final class ReadJob implements Serializable {
  private static final long serialVersionUID = 1L;

  private final StudySettings settings;
  private final TableSchema solosSchema;
  private final Map<String, Metadata> metadata;
  private final PhraseMarks marks;
  private final ReadingKey key;
  private final EarlierReading earlier;
  private final String tablesFolder;
  private final FileRows.StageWatch watch;

  /** Held for reading by every task with a file, alone by one that asks for all the memory. */
  private static final ReadWriteLock MEMORY = new ReentrantReadWriteLock();

  /**
   * @param metadata by role
   * @param marks where people say that phrases begin; null to find phrases by the rule alone
   * @param key of everything the rows depend on but the files
   * @param earlier rows that need not be made again
   * @param tablesFolder where the folders of the tables are made
   * @param watch told of every step with a file
   */
  ReadJob(
      StudySettings settings,
      TableSchema solosSchema,
      Map<String, Metadata> metadata,
      PhraseMarks marks,
      ReadingKey key,
      EarlierReading earlier,
      String tablesFolder,
      FileRows.StageWatch watch) {
    this.settings = settings;
    this.solosSchema = solosSchema;
    this.metadata = new LinkedHashMap<>(metadata);
    this.marks = marks;
    this.key = key;
    this.earlier = earlier;
    this.tablesFolder = tablesFolder;
    this.watch = watch;
  }

  List<BucketResult> run(JavaSparkContext context, ReadPlan plan, FileProgress progress) {
    long all = plan.buckets().stream().mapToLong(bucket -> bucket.files().size()).sum();
    LongAccumulator ended = context.sc().longAccumulator();
    Broadcast<ReadJob> job = context.broadcast(this);
    Broadcast<SerializableConfiguration> configuration =
        context.broadcast(new SerializableConfiguration(context.hadoopConfiguration()));
    FileCounter counter = new FileCounter(ended, all, progress);
    try {
      return context
          .parallelize(plan.largestFirst(), Math.max(1, plan.buckets().size()))
          .map(
              bucket -> {
                BucketResult result = job.value().write(bucket, configuration.value().value());
                ended.add(bucket.files().size());
                return result;
              })
          .collect();
    } finally {
      counter.close();
      job.destroy();
      configuration.destroy();
    }
  }

  private TableSchema schema(String table) {
    return table.equals("solos") ? solosSchema : TableSchemas.named(table);
  }

  private Map<String, String> metadata(InputFile file) {
    return metadata.getOrDefault(file.role(), Metadata.NONE).of(file.file());
  }

  private BucketResult write(ReadPlan.Bucket bucket, Configuration configuration)
      throws IOException {
    FileRows reading = new FileRows(settings, solosSchema, marks, watch);
    List<String> keys;
    try (InputBytes bytes =
        new InputBytes(reading.largestFile(), reading.largestRatio(), configuration)) {
      keys = earlier.isEmpty() ? List.of() : keys(bucket, reading, bytes);
    }
    EarlierReading.Part whole = earlier.whole(bucket.fileName(), keys);
    if (whole != null) {
      BucketResult result = taken(whole, bucket, configuration);
      if (result != null) {
        return result;
      }
    }
    return new Attempts(bucket, keys, reading, configuration).result();
  }

  /** A part taken over whole; null when it is damaged, which {@link EarlierRows} will tell. */
  private BucketResult taken(
      EarlierReading.Part whole, ReadPlan.Bucket bucket, Configuration configuration) {
    try {
      Map<String, TableFile.Stored> copy =
          partFiles(bucket, configuration).copyOf(whole, earlier.sums(whole));
      return copy == null
          ? null
          : new BucketResult(
              bucket.fileName(),
              EarlierReading.outcomes(bucket.role(), whole, configuration),
              copy,
              List.of());
    } catch (IOException e) {
      return null;
    }
  }

  /**
   * The parts of a bucket, written until the memory is enough: at first beside other tasks; if it
   * runs out, alone; if it still runs out, without the file that used it up.
   */
  private final class Attempts {
    private final ReadPlan.Bucket bucket;
    private final List<String> keys;
    private final FileRows reading;
    private final Configuration configuration;
    private final Set<String> tooLarge = new HashSet<>();
    private final Set<String> lost = new HashSet<>();
    private InputFile current;

    Attempts(
        ReadPlan.Bucket bucket, List<String> keys, FileRows reading, Configuration configuration) {
      this.bucket = bucket;
      this.keys = keys;
      this.reading = reading;
      this.configuration = configuration;
    }

    BucketResult result() throws IOException {
      try {
        return attempt();
      } catch (OutOfMemoryError e) {
        // Perhaps because of what other tasks hold at this moment.
      }
      MEMORY.writeLock().lock();
      try {
        while (true) {
          try {
            return attempt();
          } catch (OutOfMemoryError e) {
            if (current == null || !tooLarge.add(current.file())) {
              throw e;
            }
          }
        }
      } finally {
        MEMORY.writeLock().unlock();
      }
    }

    private BucketResult attempt() throws IOException {
      List<BucketResult.FileOutcome> outcomes = new ArrayList<>();
      List<String> readKeys = new ArrayList<>();
      current = null;
      try (PartFiles files = partFiles(bucket, configuration);
          InputBytes bytes =
              new InputBytes(reading.largestFile(), reading.largestRatio(), configuration);
          EarlierRows earlierRows = new EarlierRows(earlier, ReadJob.this::schema, configuration)) {
        for (String table : TableSchemas.OF_READING) {
          files.create(
              table,
              schema(table),
              () ->
                  table.equals("files")
                      ? Map.of(EarlierReading.KEYS, String.join("\n", readKeys))
                      : Map.of());
        }
        for (int i = 0; i < bucket.files().size(); i++) {
          current = bucket.files().get(i);
          MEMORY.readLock().lock();
          try {
            String known = keys.isEmpty() ? "" : keys.get(i);
            add(current, known, files, bytes, earlierRows, outcomes, readKeys);
          } finally {
            MEMORY.readLock().unlock();
          }
          FileCounter.count();
        }
        current = null;
        return new BucketResult(bucket.fileName(), outcomes, files.finish(), earlierRows.damaged());
      }
    }

    private void add(
        InputFile file,
        String known,
        PartFiles files,
        InputBytes bytes,
        EarlierRows earlierRows,
        List<BucketResult.FileOutcome> outcomes,
        List<String> readKeys)
        throws IOException {
      EarlierReading.Part part = earlier.part(known);
      Map<String, List<TableRow>> rows = part == null ? null : earlierRows.of(part, file);
      if (rows != null) {
        for (Map.Entry<String, List<TableRow>> entry : rows.entrySet()) {
          files.write(entry.getKey(), entry.getValue());
        }
        outcomes.add(EarlierRows.outcome(file, rows));
        readKeys.add(known);
        return;
      }
      FileRows.Result result =
          tooLarge.contains(file.file())
              ? reading.failed(file.role(), file.file(), file.bytes(), null, new OutOfMemoryError())
              : read(file, reading, bytes, lost);
      for (Map.Entry<String, List<TableRow>> entry : result.rows().entrySet()) {
        files.write(entry.getKey(), entry.getValue());
      }
      outcomes.add(
          new BucketResult.FileOutcome(
              file.role(),
              file.file(),
              result.sha256(),
              result.rejection(),
              result.notes(),
              result.line(),
              false,
              lost.contains(file.file()),
              result.fault() == null ? null : result.fault().trace()));
      // What failed is tried again: with more memory, or mended, it may be read.
      readKeys.add(result.fault() == null ? key(file, result.sha256()) : "");
    }
  }

  private PartFiles partFiles(ReadPlan.Bucket bucket, Configuration configuration)
      throws IOException {
    return new PartFiles(
        tablesFolder,
        bucket.fileName(),
        Long.toString(TaskContext.get().taskAttemptId()),
        configuration);
  }

  /** The keys of a bucket's files as they are now; empty texts for files that cannot be opened. */
  private List<String> keys(ReadPlan.Bucket bucket, FileRows reading, InputBytes bytes) {
    List<String> keys = new ArrayList<>();
    for (InputFile file : bucket.files()) {
      String sha256 = null;
      if (file.refusal() == null && file.bytes() <= reading.largestFile()) {
        try {
          sha256 = Sha256.of(bytes.of(file));
        } catch (IOException e) {
          // Reading it will say why.
        }
      }
      keys.add(key(file, sha256));
    }
    return keys;
  }

  private String key(InputFile file, String sha256) {
    return sha256 == null ? "" : key.of(file.role(), file.file(), sha256, metadata(file), marks);
  }

  /**
   * @param lost gets the name of the file if it was there when the folder was listed, and is not
   *     now
   */
  private FileRows.Result read(
      InputFile file, FileRows reading, InputBytes opening, Set<String> lost) {
    if (file.refusal() != null) {
      return reading.unreadable(file.role(), file.file(), file.bytes(), file.refusal());
    }
    long limit = reading.largestFile();
    if (file.bytes() > limit) {
      return reading.unreadable(
          file.role(),
          file.file(),
          file.bytes(),
          "The file has " + file.bytes() + " bytes; the limit file-size is " + limit + ".");
    }
    byte[] bytes;
    try {
      bytes = opening.of(file);
    } catch (LostFile e) {
      lost.add(file.file());
      return reading.unreadable(file.role(), file.file(), file.bytes(), e.getMessage());
    } catch (AccessControlException e) {
      return reading.unreadable(
          file.role(), file.file(), file.bytes(), "The file may not be read: permission denied.");
    } catch (IOException e) {
      return reading.unreadable(
          file.role(),
          file.file(),
          file.bytes(),
          "The file could not be read: " + e.getMessage() + ".");
    }
    return reading.of(file.role(), file.file(), bytes, metadata(file));
  }
}
