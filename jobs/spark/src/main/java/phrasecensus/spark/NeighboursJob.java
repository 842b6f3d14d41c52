package phrasecensus.spark;

import static org.apache.spark.sql.functions.array;
import static org.apache.spark.sql.functions.col;
import static org.apache.spark.sql.functions.collect_list;
import static org.apache.spark.sql.functions.lit;
import static org.apache.spark.sql.functions.struct;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import phrasecensus.music.norm.RobustScale;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSchemas;

/**
 * Builds table {@code neighbours}: the corpus solos most like each solo of a student. Each task
 * looks through its share of the corpus and sends its nearest few; no two corpus solos are ever
 * held against each other.
 */
final class NeighboursJob implements Serializable {
  private static final long serialVersionUID = 1L;

  /** How many neighbours a solo gets. */
  static final int MOST = 5;

  private static final int DRIVERS = 3;

  private final TreeMap<String, double[]> units = new TreeMap<>();
  private final ArrayList<Student> solos = new ArrayList<>();

  /**
   * @param units middle and spread of the corpus by statistic
   * @param students solos to find neighbours for; what is pooled is passed over
   */
  NeighboursJob(Map<String, RobustScale.Unit> units, List<Student> students) {
    units.forEach((key, unit) -> this.units.put(key, new double[] {unit.median(), unit.spread()}));
    students.stream()
        .filter(student -> student.scope().equals(Student.SOLO))
        .forEach(this.solos::add);
  }

  /** The finished rows, without order. */
  List<TableRow> run(SparkSession spark, String tablesFolder, TableSchema solosSchema) {
    if (solos.isEmpty() || units.size() < RobustScale.LEAST_SHARED) {
      return List.of();
    }
    Dataset<Row> names =
        NormsJob.table(spark, tablesFolder, solosSchema)
            .where(col("role").equalTo(InputFile.CORPUS))
            .select(
                col("solo_id"),
                array(col("performer"), col("title")).as("names"),
                lit(null).cast("string").as("statistic"),
                lit(null).cast("double").as("value"));
    Dataset<Row> values =
        NormsJob.table(spark, tablesFolder, TableSchemas.named("solo_statistics"))
            .where(
                col("role")
                    .equalTo(InputFile.CORPUS)
                    .and(col("statistic").isin(units.keySet().toArray()))
                    .and(col("value").isNotNull()))
            .select(
                col("solo_id"),
                lit(null).cast("array<string>").as("names"),
                col("statistic"),
                col("value"));
    // A union costs less than a join, which would be a job of its own.
    Dataset<Row> corpus =
        names
            .union(values)
            .groupBy("solo_id")
            .agg(
                collect_list(struct(col("names"), col("statistic"), col("value"))).as("values"));
    Broadcast<NeighboursJob> job =
        JavaSparkContext.fromSparkContext(spark.sparkContext()).broadcast(this);
    FlatMapFunction<Iterator<Row>, Near> nearest = rows -> job.value().nearest(rows).iterator();
    Map<Integer, List<Near>> bySolo = new TreeMap<>();
    for (Near near : corpus.toJavaRDD().mapPartitions(nearest).collect()) {
      bySolo.computeIfAbsent(near.solo(), solo -> new ArrayList<>()).add(near);
    }
    job.destroy();
    List<TableRow> rows = new ArrayList<>();
    bySolo.forEach(
        (solo, found) -> {
          found.sort(Comparator.comparingDouble(Near::distance).thenComparing(Near::neighbour));
          for (int i = 0; i < Math.min(MOST, found.size()); i++) {
            rows.add(row(solos.get(solo), i + 1, found.get(i)));
          }
        });
    return rows;
  }

  /**
   * A neighbour on its way to the driver.
   *
   * @param solo place of the student's solo in the list of this job
   * @param difference in the first driver, student less corpus, in robust standard deviations
   */
  private record Near(
      int solo,
      String neighbour,
      String performer,
      String title,
      double distance,
      int shared,
      ArrayList<String> drivers,
      double difference)
      implements Serializable {}

  private List<Near> nearest(Iterator<Row> rows) {
    Map<String, Map<String, Double>> corpus = new HashMap<>();
    Map<String, List<String>> names = new HashMap<>();
    while (rows.hasNext()) {
      Row row = rows.next();
      Map<String, Double> values = new HashMap<>();
      for (Row each : row.<Row>getList(1)) {
        if (each.isNullAt(0)) {
          values.put(each.getString(1), each.getDouble(2));
        } else {
          names.put(row.getString(0), each.getList(0));
        }
      }
      corpus.put(row.getString(0), values);
    }
    Map<String, RobustScale.Unit> made = new TreeMap<>();
    units.forEach((key, unit) -> made.put(key, new RobustScale.Unit(unit[0], unit[1])));
    RobustScale scale = RobustScale.ofUnits(made);
    List<Near> found = new ArrayList<>();
    for (int i = 0; i < solos.size(); i++) {
      for (RobustScale.Neighbour neighbour :
          scale.nearest(solos.get(i).values(), corpus, MOST)) {
        RobustScale.Distance distance = neighbour.distance();
        ArrayList<String> drivers = new ArrayList<>();
        distance.drivers().stream()
            .limit(DRIVERS)
            .map(RobustScale.Driver::key)
            .forEach(drivers::add);
        List<String> name = names.get(neighbour.solo());
        found.add(
            new Near(
                i,
                neighbour.solo(),
                name.get(0),
                name.get(1),
                distance.value(),
                distance.shared(),
                drivers,
                distance.drivers().get(0).difference()));
      }
    }
    return found;
  }

  private static TableRow row(Student solo, int place, Near near) {
    return TableRow.of(TableSchemas.named("neighbours"))
        .set("student", solo.student())
        .set("solo_id", solo.soloId())
        .set("place", place)
        .set("neighbour_id", near.neighbour())
        .set("performer", near.performer())
        .set("title", near.title())
        .set("distance", near.distance())
        .set("shared", near.shared())
        .set("drivers", near.drivers())
        .set("greatest_difference", near.difference())
        .build();
  }
}
