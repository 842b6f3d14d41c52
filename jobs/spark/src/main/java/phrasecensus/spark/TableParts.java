package phrasecensus.spark;

import java.io.IOException;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import org.apache.hadoop.conf.Configuration;
import org.apache.hadoop.fs.FileStatus;
import org.apache.hadoop.fs.FileSystem;
import org.apache.hadoop.fs.Path;
import org.apache.spark.api.java.JavaRDD;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.util.SerializableConfiguration;
import phrasecensus.store.parquet.ColumnScan;

/**
 * The tables of reading in the parts in which they were written: what every later job runs over. A
 * part has the same solos in every table, so what belongs to a solo is brought together where it
 * lies, without a join.
 */
final class TableParts {
  private final JavaSparkContext context;
  private final Broadcast<SerializableConfiguration> configuration;
  private final List<Part> parts;

  private TableParts(
      JavaSparkContext context,
      Broadcast<SerializableConfiguration> configuration,
      List<Part> parts) {
    this.context = context;
    this.configuration = configuration;
    this.parts = parts;
  }

  /**
   * One part of every table.
   *
   * @param tables the folder with one folder a table
   * @param name of its file in each of them, as in {@code corpus-00003.parquet}
   */
  record Part(String tables, String name, Broadcast<SerializableConfiguration> configuration)
      implements Serializable {

    /** {@code corpus} or {@code student}. */
    String role() {
      return name.substring(0, name.indexOf('-'));
    }

    /** Opens some columns of a table. */
    ColumnScan scan(String table, String... columns) throws IOException {
      return ColumnScan.open(
          new Path(tables + "/" + table, name), List.of(columns), configuration.value().value());
    }
  }

  /** The parts of the tables below a folder, in order. */
  static TableParts of(JavaSparkContext context, Path tables) throws IOException {
    Configuration hadoop = context.hadoopConfiguration();
    Broadcast<SerializableConfiguration> configuration =
        context.broadcast(new SerializableConfiguration(hadoop));
    FileSystem fileSystem = tables.getFileSystem(hadoop);
    List<Part> parts = new ArrayList<>();
    for (FileStatus status : fileSystem.listStatus(new Path(tables, "solos"))) {
      String name = status.getPath().getName();
      if (name.endsWith(".parquet")) {
        parts.add(new Part(tables.toString(), name, configuration));
      }
    }
    parts.sort(java.util.Comparator.comparing(Part::name));
    return new TableParts(context, configuration, List.copyOf(parts));
  }

  /** The parts of both roles, one a task. */
  JavaRDD<Part> all() {
    return context.parallelize(parts, Math.max(1, parts.size()));
  }

  /** The parts of one role, one a task. */
  JavaRDD<Part> of(String role) {
    List<Part> chosen = parts.stream().filter(part -> part.role().equals(role)).toList();
    return context.parallelize(chosen, Math.max(1, chosen.size()));
  }

  /** Sends a value to every task once. */
  <T> Broadcast<T> broadcast(T value) {
    return context.broadcast(value);
  }

  /** Frees what was sent to the tasks. */
  void release() {
    configuration.destroy();
  }
}
