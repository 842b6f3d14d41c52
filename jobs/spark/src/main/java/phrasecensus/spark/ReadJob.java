package phrasecensus.spark;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.InputStream;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import org.apache.hadoop.security.AccessControlException;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.util.SerializableConfiguration;
import phrasecensus.spark.parquet.RowDigest;
import phrasecensus.spark.parquet.TableFile;
import phrasecensus.spark.rows.FileRows;
import phrasecensus.tables.Metadata;
import phrasecensus.tables.PhraseMarks;
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
  private final String tablesFolder;

  /**
   * @param metadata by role
   * @param marks where people say that phrases begin; null to find phrases by the rule alone
   * @param tablesFolder where the folders of the tables are made
   */
  ReadJob(
      StudySettings settings,
      TableSchema solosSchema,
      Map<String, Metadata> metadata,
      PhraseMarks marks,
      String tablesFolder) {
    this.settings = settings;
    this.solosSchema = solosSchema;
    this.metadata = new LinkedHashMap<>(metadata);
    this.marks = marks;
    this.tablesFolder = tablesFolder;
  }

  List<BucketResult> run(JavaSparkContext context, ReadPlan plan) {
    Broadcast<ReadJob> job = context.broadcast(this);
    Broadcast<SerializableConfiguration> configuration =
        context.broadcast(new SerializableConfiguration(context.hadoopConfiguration()));
    try {
      return context
          .parallelize(plan.buckets(), Math.max(1, plan.buckets().size()))
          .map(bucket -> job.value().write(bucket, configuration.value().value()))
          .collect();
    } finally {
      job.destroy();
      configuration.destroy();
    }
  }

  private BucketResult write(ReadPlan.Bucket bucket, Configuration configuration)
      throws IOException {
    FileRows reading = new FileRows(settings, solosSchema, marks);
    String name = bucket.fileName();
    List<BucketResult.FileOutcome> outcomes = new ArrayList<>();
    Map<String, TableFile> open = new LinkedHashMap<>();
    Map<String, RowDigest> digests = new LinkedHashMap<>();
    try {
      for (String table : TableSchemas.OF_READING) {
        TableSchema schema = table.equals("solos") ? solosSchema : TableSchemas.named(table);
        open.put(
            table,
            TableFile.create(new Path(tablesFolder + "/" + table, name), schema, configuration));
        digests.put(table, new RowDigest());
      }
      for (InputFile file : bucket.files()) {
        FileRows.Result result = read(file, reading, configuration);
        for (Map.Entry<String, List<TableRow>> entry : result.rows().entrySet()) {
          TableFile into = open.get(entry.getKey());
          RowDigest digest = digests.get(entry.getKey());
          for (TableRow row : entry.getValue()) {
            into.write(row);
            digest.add(row);
          }
        }
        outcomes.add(
            new BucketResult.FileOutcome(
                file.role(), file.file(), result.sha256(), result.rejection(), result.notes()));
      }
    } finally {
      IOException failure = null;
      for (TableFile file : open.values()) {
        try {
          file.close();
        } catch (IOException e) {
          failure = e;
        }
      }
      if (failure != null) {
        throw failure;
      }
    }
    Map<String, BucketResult.Written> written = new LinkedHashMap<>();
    digests.forEach(
        (table, digest) ->
            written.put(table, new BucketResult.Written(digest.rows(), digest.hex())));
    return new BucketResult(outcomes, written);
  }

  private FileRows.Result read(InputFile file, FileRows reading, Configuration configuration) {
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
      Path path = new Path(java.net.URI.create(file.address()));
      FileSystem fileSystem = path.getFileSystem(configuration);
      try (InputStream stream = fileSystem.open(path)) {
        bytes = stream.readAllBytes();
      }
    } catch (FileNotFoundException e) {
      String message = String.valueOf(e.getMessage());
      return reading.unreadable(
          file.role(),
          file.file(),
          file.bytes(),
          message.toLowerCase(Locale.ROOT).contains("permission")
              ? "The file may not be read: permission denied."
              : "The file could not be opened: it is gone or may not be read.");
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
    return reading.of(
        file.role(),
        file.file(),
        bytes,
        metadata.getOrDefault(file.role(), Metadata.NONE).of(file.file()));
  }
}
