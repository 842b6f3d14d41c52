package phrasecensus.spark;

import static org.apache.spark.sql.functions.array;
import static org.apache.spark.sql.functions.coalesce;
import static org.apache.spark.sql.functions.col;
import static org.apache.spark.sql.functions.collect_list;
import static org.apache.spark.sql.functions.lit;
import static org.apache.spark.sql.functions.struct;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.api.java.function.Function;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Column;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import org.apache.spark.sql.types.DataType;
import org.apache.spark.sql.types.StructType;
import phrasecensus.music.norm.RobustScale;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSchemas;

/**
 * Builds the tables {@code norms}, {@code contrasts}, {@code departures} and {@code trends} from
 * those of reading: all values of a statistic come together once, and where they are, norms are
 * made, groups contrasted, and the students held against them. Only the finished rows, which are
 * few, come to the driver.
 */
final class NormsJob implements Serializable {
  private static final long serialVersionUID = 1L;

  /** The group that holds the whole corpus. */
  static final String ALL = "all";

  /** The group of solos whose column is empty. */
  static final String NO_VALUE = "(none)";

  private static final long SMALL_WORK_ROWS = 2_000_000;

  private final ArrayList<String> by;
  private final ArrayList<Student> students;
  private final boolean withNorms;

  /**
   * @param by columns of table solos that make groups, beside the whole corpus
   * @param students whom to compare; may be empty
   * @param withNorms true to make norms and contrasts too, false for the comparison alone
   */
  NormsJob(List<String> by, List<Student> students, boolean withNorms) {
    this.by = new ArrayList<>(by);
    this.students = new ArrayList<>(students);
    this.withNorms = withNorms;
  }

  /**
   * The finished rows, without order.
   *
   * @param rows by table, without what depends on other statistics: adjusted p-values, places
   * @param units middle and spread in each compared statistic that has a spread, by group
   */
  record Result(
      Map<String, List<TableRow>> rows, Map<GroupKey, Map<String, RobustScale.Unit>> units) {
    List<TableRow> of(String table) {
      return rows.getOrDefault(table, List.of());
    }

    /** Middle and spread of the whole corpus. */
    Map<String, RobustScale.Unit> wholeUnits() {
      return units.getOrDefault(GroupKey.WHOLE, Map.of());
    }
  }

  /**
   * Names a group of the corpus.
   *
   * @param by column that makes the group
   * @param value its value
   */
  record GroupKey(String by, String value) implements Serializable {
    /** The whole corpus. */
    static final GroupKey WHOLE = new GroupKey(ALL, ALL);
  }

  /**
   * @param tablesFolder the folder with one folder a table
   * @param rows rows of the tables of statistics, to choose how to work
   */
  Result run(SparkSession spark, String tablesFolder, TableSchema solosSchema, long rows) {
    tune(spark, rows);
    Dataset<Row> values =
        table(spark, tablesFolder, solosSchema)
            .where(col("role").equalTo(InputFile.CORPUS))
            .select(
                col("solo_id"),
                col("performer"),
                groupValues(by).as("groups"))
            .join(
                table(spark, tablesFolder, TableSchemas.named("solo_statistics"))
                    .where(col("role").equalTo(InputFile.CORPUS))
                    .select("solo_id", "statistic", "value"),
                "solo_id")
            .select(
                col("statistic"),
                lit(false).as("phrase"),
                col("solo_id"),
                col("performer"),
                col("groups"),
                col("value"));
    if (students.stream().anyMatch(student -> student.scope().equals(Student.POOLED))) {
      values = values.union(phrases(spark, tablesFolder));
    }
    Dataset<Row> grouped =
        values
            .groupBy("statistic")
            .agg(
                collect_list(
                        struct(
                            col("phrase"),
                            col("solo_id"),
                            col("performer"),
                            col("groups"),
                            col("value")))
                    .as("values"));
    Broadcast<NormsJob> job =
        JavaSparkContext.fromSparkContext(spark.sparkContext()).broadcast(this);
    Function<Row, Finished> finish = row -> job.value().finish(row);
    Map<String, List<TableRow>> finished = new TreeMap<>();
    Map<GroupKey, Map<String, RobustScale.Unit>> units = new HashMap<>();
    for (Finished each : grouped.toJavaRDD().map(finish).collect()) {
      for (PlainRow row : each.rows()) {
        finished.computeIfAbsent(row.table(), table -> new ArrayList<>()).add(row.row());
      }
      for (GroupUnit unit : each.units()) {
        units
            .computeIfAbsent(unit.group(), group -> new TreeMap<>())
            .put(each.statistic(), new RobustScale.Unit(unit.median(), unit.spread()));
      }
    }
    job.destroy();
    return new Result(finished, units);
  }

  /** Values of phrases, of corpus and students, in the statistics that are compared. */
  private static Dataset<Row> phrases(SparkSession spark, String tablesFolder) {
    Object[] compared =
        StatisticsCatalogue.builtIn().ofLevel("phrase").stream()
            .filter(StatisticDefinition::compared)
            .map(StatisticDefinition::key)
            .toArray();
    return table(spark, tablesFolder, TableSchemas.named("phrase_statistics"))
        .where(col("statistic").isin(compared).and(col("value").isNotNull()))
        .select(
            col("statistic"),
            lit(true).as("phrase"),
            col("solo_id"),
            lit("").as("performer"),
            array().cast("array<string>").as("groups"),
            col("value"));
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

  /** The group of a solo in each column that makes groups, as an array. */
  static Column groupValues(List<String> by) {
    return array(
            by.stream()
                .map(column -> coalesce(col(quoted(column)), lit(NO_VALUE)))
                .toArray(Column[]::new))
        .cast("array<string>");
  }

  private static String quoted(String column) {
    return "`" + column.replace("`", "``") + "`";
  }

  static Dataset<Row> table(SparkSession spark, String folder, TableSchema schema) {
    return spark
        .read()
        .schema((StructType) DataType.fromJson(schema.sparkJson()))
        .parquet(folder + "/" + schema.table());
  }

  /**
   * What became of one statistic, on its way to the driver.
   *
   * @param units of the groups that have a spread; none where the statistic is not compared
   */
  private record Finished(
      String statistic, ArrayList<PlainRow> rows, ArrayList<GroupUnit> units)
      implements Serializable {}

  private record GroupUnit(GroupKey group, double median, double spread)
      implements Serializable {}

  /** A table's row as plain values. */
  private record PlainRow(String table, ArrayList<Object> values) implements Serializable {
    static PlainRow of(TableRow row) {
      ArrayList<Object> values = new ArrayList<>();
      for (int i = 0; i < row.schema().columns().size(); i++) {
        values.add(row.value(i));
      }
      return new PlainRow(row.schema().table(), values);
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

  private Finished finish(Row row) {
    StatisticValues values = StatisticValues.of(row, by);
    String statistic = values.definition().key();
    boolean compared = values.definition().compared();
    CorpusGroup whole = values.whole();
    List<TableRow> rows = new ArrayList<>(ofGroup(values, whole));
    Map<String, List<CorpusGroup>> groups = values.groups();
    for (List<CorpusGroup> made : groups.values()) {
      for (CorpusGroup group : made) {
        rows.addAll(ofGroup(values, group));
      }
      if (withNorms && compared) {
        rows.addAll(ContrastRows.of(values.definition(), made));
      }
    }
    ArrayList<GroupUnit> units = new ArrayList<>();
    if (compared) {
      for (List<Student> solos : solosByStudent().values()) {
        rows.add(TrendRows.of(values.definition(), whole, solos));
      }
      if (!students.isEmpty()) {
        addUnit(units, whole);
        groups.values().forEach(made -> made.forEach(group -> addUnit(units, group)));
      }
    }
    ArrayList<PlainRow> plain = new ArrayList<>();
    rows.forEach(each -> plain.add(PlainRow.of(each)));
    return new Finished(statistic, plain, units);
  }

  private static void addUnit(List<GroupUnit> units, CorpusGroup group) {
    RobustScale.Unit.of(group.norm().sample())
        .ifPresent(
            unit ->
                units.add(
                    new GroupUnit(
                        new GroupKey(group.by(), group.value()), unit.median(), unit.spread())));
  }

  private List<TableRow> ofGroup(StatisticValues values, CorpusGroup group) {
    List<TableRow> rows = new ArrayList<>();
    if (withNorms) {
      rows.add(NormRows.of(values.definition().key(), group));
    }
    if (values.definition().compared()) {
      Map<String, List<Student>> solos = solosByStudent();
      for (Student student : students) {
        if (group.by().equals(ALL)
            || group.value().equals(student.columns().get(group.by()))) {
          rows.add(
              DepartureRows.of(
                  values,
                  group,
                  student,
                  student.scope().equals(Student.POOLED)
                      ? solos.get(student.student())
                      : List.of(student)));
        }
      }
    }
    return rows;
  }

  private Map<String, List<Student>> solosByStudent() {
    Map<String, List<Student>> solos = new TreeMap<>();
    for (Student student : students) {
      if (student.scope().equals(Student.SOLO)) {
        solos.computeIfAbsent(student.student(), name -> new ArrayList<>()).add(student);
      }
    }
    return solos;
  }
}
