package phrasecensus.spark;

import static org.apache.spark.sql.functions.array;
import static org.apache.spark.sql.functions.coalesce;
import static org.apache.spark.sql.functions.col;
import static org.apache.spark.sql.functions.collect_list;
import static org.apache.spark.sql.functions.explode;
import static org.apache.spark.sql.functions.lit;
import static org.apache.spark.sql.functions.struct;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Column;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.sql.types.DataType;
import org.apache.spark.sql.types.StructType;
import phrasecensus.music.norm.Departure;
import phrasecensus.music.norm.Departures;
import phrasecensus.music.norm.Norm;
import phrasecensus.music.norm.NormValue;
import phrasecensus.music.norm.Norms;
import phrasecensus.music.norm.QuantileInterval;
import phrasecensus.music.norm.StudentValue;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSchemas;

/**
 * Builds the {@code norms} and {@code departures} tables from {@code solos} and {@code
 * solo_statistics}: the values of each statistic in each corpus group come together once, and where
 * they are, the norm is made and the students are held against it. Only the finished rows, which
 * are few, come to the driver.
 */
final class NormsJob implements Serializable {
  private static final long serialVersionUID = 1L;

  /** The group that holds the whole corpus. */
  static final String ALL = "all";

  /** The group of solos whose column is empty. */
  static final String NO_VALUE = "(none)";

  /** Percentile ranks closer to 50 than this are called the middle. */
  private static final double MIDDLE = 5;

  private static final long SMALL_WORK_ROWS = 2_000_000;

  private final ArrayList<String> by;
  private final ArrayList<Student> students;

  /**
   * @param by columns of table solos that make groups, beside the whole corpus
   * @param students whom to compare; may be empty
   */
  NormsJob(List<String> by, List<Student> students) {
    this.by = new ArrayList<>(by);
    this.students = new ArrayList<>(students);
  }

  /**
   * The finished rows, without order.
   *
   * @param norms rows of table norms
   * @param departures rows of table departures, without their place in a ranking
   */
  record Result(List<TableRow> norms, List<TableRow> departures) {}

  Result run(SparkSession spark, String tablesFolder, TableSchema solosSchema, long statisticRows) {
    tune(spark, statisticRows);
    Dataset<Row> solos =
        table(spark, tablesFolder, solosSchema).where(col("role").equalTo(InputFile.CORPUS));
    Dataset<Row> statistics =
        table(spark, tablesFolder, TableSchemas.named("solo_statistics"))
            .where(col("role").equalTo(InputFile.CORPUS))
            .select("solo_id", "statistic", "value");
    List<Column> groups = new ArrayList<>();
    groups.add(struct(lit(ALL).as("by"), lit(ALL).as("value")));
    for (String column : by) {
      groups.add(
          struct(
              lit(column).as("by"), coalesce(col(quoted(column)), lit(NO_VALUE)).as("value")));
    }
    Dataset<Row> grouped =
        solos
            .select(
                col("solo_id"),
                col("performer"),
                explode(array(groups.toArray(Column[]::new))).as("group"))
            .join(statistics, "solo_id")
            .groupBy(col("group.by"), col("group.value"), col("statistic"))
            .agg(collect_list(struct(col("performer"), col("value"))).as("values"));
    Broadcast<NormsJob> job =
        org.apache.spark.api.java.JavaSparkContext.fromSparkContext(spark.sparkContext())
            .broadcast(this);
    FlatMapFunction<Row, Finished> finish = row -> job.value().finish(row).iterator();
    List<TableRow> norms = new ArrayList<>();
    List<TableRow> departures = new ArrayList<>();
    for (Finished finished : grouped.toJavaRDD().flatMap(finish).collect()) {
      (finished.table().equals("norms") ? norms : departures).add(finished.row());
    }
    job.destroy();
    return new Result(norms, departures);
  }

  /**
   * For small work, compiling Spark's generated code takes longer than running without. No setting
   * here changes a result.
   */
  private static void tune(SparkSession spark, long rows) {
    boolean small = rows < SMALL_WORK_ROWS;
    spark.conf().set("spark.sql.codegen.wholeStage", Boolean.toString(!small));
    spark.conf().set("spark.sql.codegen.factoryMode", small ? "NO_CODEGEN" : "FALLBACK");
    spark.conf().set("spark.sql.shuffle.partitions", small ? "2" : "32");
  }

  private static String quoted(String column) {
    return "`" + column.replace("`", "``") + "`";
  }

  private static Dataset<Row> table(SparkSession spark, String folder, TableSchema schema) {
    return spark
        .read()
        .schema((StructType) DataType.fromJson(schema.sparkJson()))
        .parquet(folder + "/" + schema.table());
  }

  /** A finished row on its way to the driver: a table's row as plain values. */
  private record Finished(String table, ArrayList<Object> values) implements Serializable {
    static Finished of(TableRow row) {
      ArrayList<Object> values = new ArrayList<>();
      for (int i = 0; i < row.schema().columns().size(); i++) {
        values.add(row.value(i));
      }
      return new Finished(row.schema().table(), values);
    }

    TableRow row() {
      TableSchema schema = TableSchemas.named(table);
      TableRow.Builder row = TableRow.of(schema);
      for (int i = 0; i < values.size(); i++) {
        row.set(schema.columns().get(i).name(), values.get(i));
      }
      return row.build();
    }
  }

  private List<Finished> finish(Row group) {
    String groupBy = group.getString(0);
    String groupValue = group.getString(1);
    String statistic = group.getString(2);
    List<NormValue> values = new ArrayList<>();
    for (Row each : group.<Row>getList(3)) {
      values.add(new NormValue(each.getString(0), each.isNullAt(1) ? null : each.getDouble(1)));
    }
    Norm norm = Norms.of(values);
    List<Finished> finished = new ArrayList<>();
    finished.add(Finished.of(normRow(groupBy, groupValue, statistic, norm)));
    StatisticDefinition definition =
        StatisticsCatalogue.builtIn()
            .named(statistic)
            .orElseThrow(() -> new IllegalStateException("Unknown statistic: " + statistic));
    if (definition.compared()) {
      for (Student student : students) {
        if (groupBy.equals(ALL) || groupValue.equals(student.columns().get(groupBy))) {
          finished.add(
              Finished.of(departureRow(groupBy, groupValue, definition, norm, student)));
        }
      }
    }
    return finished;
  }

  private static TableRow normRow(
      String groupBy, String groupValue, String statistic, Norm norm) {
    TableRow.Builder row =
        TableRow.of(TableSchemas.named("norms"))
            .set("group_by", groupBy)
            .set("group_value", groupValue)
            .set("statistic", statistic)
            .set("n", norm.n())
            .set("undefined", norm.undefinedCount())
            .set("players", norm.playerCount())
            .set("shown", shown(norm))
            .set("dominated_by", norm.dominantPlayer())
            .set("minimum", norm.min())
            .set("p05", norm.p05())
            .set("p10", norm.p10())
            .set("p25", norm.p25())
            .set("p50", norm.p50())
            .set("p75", norm.p75())
            .set("p90", norm.p90())
            .set("p95", norm.p95())
            .set("maximum", norm.max())
            .set("mean", norm.mean())
            .set("median_absolute_deviation", norm.medianAbsoluteDeviation());
    Map<String, Double> intervals = new LinkedHashMap<>();
    intervals.put("p25", 0.25);
    intervals.put("p50", 0.5);
    intervals.put("p75", 0.75);
    intervals.forEach(
        (name, probability) -> {
          QuantileInterval interval = norm.interval(probability).orElse(null);
          row.set(name + "_low", interval == null ? null : interval.lower());
          row.set(name + "_high", interval == null ? null : interval.upper());
        });
    return row.build();
  }

  private static String shown(Norm norm) {
    return switch (norm.level()) {
      case LIST_ONLY -> "list";
      case MEDIAN -> "median";
      case QUARTILES -> "quartiles";
      case DECILES -> "deciles";
      case FULL -> "full";
    };
  }

  private static TableRow departureRow(
      String groupBy,
      String groupValue,
      StatisticDefinition definition,
      Norm norm,
      Student student) {
    Double value = student.values().get(definition.key());
    Departure departure =
        Departures.of(
            new StudentValue(
                definition.key(), definition.facet(), value, student.phrases(), norm));
    return TableRow.of(TableSchemas.named("departures"))
        .set("student", student.student())
        .set("scope", student.scope())
        .set("solo_id", student.soloId())
        .set("date", student.date())
        .set("group_by", groupBy)
        .set("group_value", groupValue)
        .set("statistic", definition.key())
        .set("facet", definition.facet())
        .set("value", value)
        .set("n", student.counts().getOrDefault(definition.key(), 0))
        .set("norm_n", norm.n())
        .set("percentile_rank", departure.rank() == null ? null : departure.rank().percent())
        .set("position", position(departure, definition))
        .set("verdict", verdict(departure))
        .set("departure", signed(departure))
        .set("strength", departure.discounted())
        .build();
  }

  private static String position(Departure departure, StatisticDefinition definition) {
    if (departure.rank() == null) {
      return departure.student().value() == null
          ? "not defined for this solo"
          : "no solo of the group has a value";
    }
    double percent = departure.rank().percent();
    return Math.abs(percent - 50) < MIDDLE
        ? "about in the middle of " + departure.rank().n() + " solos"
        : departure.rank().words(definition.higher(), definition.lower(), "solos");
  }

  private static String verdict(Departure departure) {
    return switch (departure.verdict()) {
      case INSIDE_BAND -> "inside";
      case BELOW -> "below";
      case ABOVE -> "above";
      case TOO_LITTLE -> "too-little";
      case NO_NORM -> "no-norm";
    };
  }

  private static Double signed(Departure departure) {
    Double size = departure.size();
    return size == null
        ? null
        : (Double) (departure.verdict() == phrasecensus.music.norm.Verdict.BELOW ? -size : size);
  }
}
