package phrasecensus.spark;

import static org.apache.spark.sql.functions.array;
import static org.apache.spark.sql.functions.coalesce;
import static org.apache.spark.sql.functions.col;
import static org.apache.spark.sql.functions.collect_list;
import static org.apache.spark.sql.functions.concat;
import static org.apache.spark.sql.functions.lit;
import static org.apache.spark.sql.functions.struct;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.broadcast.Broadcast;
import org.apache.spark.sql.Column;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import phrasecensus.music.norm.RobustScale;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchema;
import phrasecensus.tables.TableSchemas;

/**
 * Looks through the corpus solo by solo for what is like the students' solos: the nearest solos for
 * table {@code neighbours}, and phrases that show the opposite of a departure for table {@code
 * exemplars}. Each task looks through its share of the corpus and sends its nearest few; no two
 * corpus solos are ever held against each other.
 */
final class LikenessJob implements Serializable {
  private static final long serialVersionUID = 1L;

  /** How many neighbours a solo gets. */
  static final int MOST_NEIGHBOURS = 5;

  private static final int DRIVERS = 3;

  private final ArrayList<String> by;
  private final TreeMap<String, double[]> units = new TreeMap<>();
  private final ArrayList<Student> solos = new ArrayList<>();
  private final ArrayList<ShownDeparture> departures;

  /**
   * @param by columns of table solos that make groups, beside the whole corpus
   * @param units middle and spread of the corpus by statistic
   * @param students solos to find neighbours for; what is pooled is passed over
   * @param departures to find phrases of the corpus for
   */
  LikenessJob(
      List<String> by,
      Map<String, RobustScale.Unit> units,
      List<Student> students,
      List<ShownDeparture> departures) {
    this.by = new ArrayList<>(by);
    if (units.size() >= RobustScale.LEAST_SHARED) {
      units.forEach(
          (key, unit) -> this.units.put(key, new double[] {unit.median(), unit.spread()}));
      students.stream()
          .filter(student -> student.scope().equals(Student.SOLO))
          .forEach(this.solos::add);
    }
    this.departures = new ArrayList<>(departures);
  }

  /** The finished rows, without order. */
  record Result(List<TableRow> neighbours, List<TableRow> exemplars) {}

  /**
   * @param tablesFolder the folder with one folder a table
   */
  Result run(SparkSession spark, String tablesFolder, TableSchema solosSchema) {
    if (solos.isEmpty() && departures.isEmpty()) {
      return new Result(List.of(), List.of());
    }
    // A union costs less than joins, each of which would be a job of its own.
    Dataset<Row> rows = names(spark, tablesFolder, solosSchema);
    if (!solos.isEmpty()) {
      rows = rows.union(soloValues(spark, tablesFolder));
    }
    if (!departures.isEmpty()) {
      rows =
          rows.union(phrases(spark, tablesFolder)).union(phraseValues(spark, tablesFolder));
    }
    Dataset<Row> corpus =
        rows.groupBy("solo_id")
            .agg(
                collect_list(
                        struct(
                            col("kind"),
                            col("phrase_index"),
                            col("statistic"),
                            col("value"),
                            col("tempo_qpm"),
                            col("n"),
                            col("texts")))
                    .as("parts"));
    Broadcast<LikenessJob> job =
        JavaSparkContext.fromSparkContext(spark.sparkContext()).broadcast(this);
    FlatMapFunction<Iterator<Row>, Found> nearest = part -> job.value().nearest(part).iterator();
    TreeMap<Integer, Nearest<Near>> neighbours = new TreeMap<>();
    TreeMap<Integer, Nearest<ShownDeparture.Exemplar>> exemplars = new TreeMap<>();
    for (Found found : corpus.toJavaRDD().mapPartitions(nearest).collect()) {
      if (found instanceof Near near) {
        neighbours.computeIfAbsent(near.solo(), solo -> nearestSolos()).add(near);
      } else if (found instanceof FoundPhrase phrase) {
        exemplars
            .computeIfAbsent(phrase.departure(), departure -> nearestPhrases())
            .add(phrase.exemplar());
      }
    }
    job.destroy();
    List<TableRow> neighbourRows = new ArrayList<>();
    neighbours.forEach(
        (solo, nearestSolos) -> {
          int place = 0;
          for (Near near : nearestSolos.inOrder()) {
            neighbourRows.add(row(solos.get(solo), ++place, near));
          }
        });
    List<TableRow> exemplarRows = new ArrayList<>();
    exemplars.forEach(
        (departure, nearestPhrases) -> {
          int rank = 0;
          for (ShownDeparture.Exemplar exemplar : nearestPhrases.inOrder()) {
            exemplarRows.add(departures.get(departure).row(++rank, exemplar));
          }
        });
    return new Result(neighbourRows, exemplarRows);
  }

  /** What a row of the union is about. */
  private static final int NAMES = 0;

  private static final int SOLO_VALUE = 1;
  private static final int PHRASE = 2;
  private static final int PHRASE_VALUE = 3;

  private static final Column NO_PHRASE = lit(null).cast("int").as("phrase_index");
  private static final Column NO_STATISTIC = lit(null).cast("string").as("statistic");
  private static final Column NO_VALUE = lit(null).cast("double").as("value");
  private static final Column NO_TEMPO = lit(null).cast("double").as("tempo_qpm");
  private static final Column NO_COUNT = lit(null).cast("int").as("n");
  private static final Column NO_TEXTS = lit(null).cast("array<string>").as("texts");

  private Dataset<Row> names(SparkSession spark, String tablesFolder, TableSchema solosSchema) {
    return corpus(NormsJob.table(spark, tablesFolder, solosSchema))
        .select(
            col("solo_id"),
            lit(NAMES).as("kind"),
            NO_PHRASE,
            NO_STATISTIC,
            NO_VALUE,
            NO_TEMPO,
            NO_COUNT,
            concat(
                    array(coalesce(col("performer"), lit("")), coalesce(col("title"), lit(""))),
                    NormsJob.groupValues(by))
                .as("texts"));
  }

  private Dataset<Row> soloValues(SparkSession spark, String tablesFolder) {
    return corpus(NormsJob.table(spark, tablesFolder, TableSchemas.named("solo_statistics")))
        .where(
            col("statistic").isin(units.keySet().toArray()).and(col("value").isNotNull()))
        .select(
            col("solo_id"),
            lit(SOLO_VALUE).as("kind"),
            NO_PHRASE,
            col("statistic"),
            col("value"),
            NO_TEMPO,
            NO_COUNT,
            NO_TEXTS);
  }

  private static Dataset<Row> phrases(SparkSession spark, String tablesFolder) {
    return corpus(NormsJob.table(spark, tablesFolder, TableSchemas.named("phrases")))
        .select(
            col("solo_id"),
            lit(PHRASE).as("kind"),
            col("phrase_index"),
            NO_STATISTIC,
            col("length_bars").as("value"),
            col("tempo_qpm"),
            col("last_note_index").minus(col("first_note_index")).plus(1).as("n"),
            col("chord_qualities").as("texts"));
  }

  private Dataset<Row> phraseValues(SparkSession spark, String tablesFolder) {
    Object[] shown = departures.stream().map(ShownDeparture::shownBy).distinct().toArray();
    return corpus(NormsJob.table(spark, tablesFolder, TableSchemas.named("phrase_statistics")))
        .where(col("statistic").isin(shown).and(col("value").isNotNull()))
        .select(
            col("solo_id"),
            lit(PHRASE_VALUE).as("kind"),
            col("phrase_index"),
            col("statistic"),
            col("value"),
            NO_TEMPO,
            col("n"),
            NO_TEXTS);
  }

  private static Dataset<Row> corpus(Dataset<Row> table) {
    return table.where(col("role").equalTo(InputFile.CORPUS));
  }

  /** Something on its way to the driver. */
  private sealed interface Found extends Serializable permits Near, FoundPhrase {}

  /**
   * A neighbour.
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
      implements Found {}

  /**
   * A phrase of the corpus.
   *
   * @param departure place of the departure in the list of this job
   */
  private record FoundPhrase(int departure, ShownDeparture.Exemplar exemplar) implements Found {}

  private static Nearest<Near> nearestSolos() {
    return new Nearest<>(
        MOST_NEIGHBOURS,
        Comparator.comparingDouble(Near::distance).thenComparing(Near::neighbour));
  }

  private static Nearest<ShownDeparture.Exemplar> nearestPhrases() {
    return new Nearest<>(
        ShownDeparture.MOST_PHRASES,
        Comparator.comparingDouble(ShownDeparture.Exemplar::distance)
            .thenComparing(exemplar -> exemplar.phrase().soloId()));
  }

  private List<Found> nearest(Iterator<Row> rows) {
    Map<String, RobustScale.Unit> made = new TreeMap<>();
    units.forEach((key, unit) -> made.put(key, new RobustScale.Unit(unit[0], unit[1])));
    RobustScale scale = RobustScale.ofUnits(made);
    List<Nearest<Near>> neighbours = new ArrayList<>();
    solos.forEach(solo -> neighbours.add(nearestSolos()));
    List<Nearest<ShownDeparture.Exemplar>> exemplars = new ArrayList<>();
    departures.forEach(departure -> exemplars.add(nearestPhrases()));
    while (rows.hasNext()) {
      CorpusSoloParts solo = parts(rows.next());
      for (int i = 0; i < solos.size(); i++) {
        int place = i;
        scale
            .distance(solos.get(i).values(), solo.values())
            .ifPresent(distance -> neighbours.get(place).add(near(place, solo, distance)));
      }
      for (int i = 0; i < departures.size(); i++) {
        ShownDeparture departure = departures.get(i);
        if (solo.isIn(departure.groupBy(), departure.groupValue(), by)) {
          departure
              .nearest(solo.phrases().getOrDefault(departure.shownBy(), List.of()))
              .ifPresent(exemplars.get(i)::add);
        }
      }
    }
    List<Found> found = new ArrayList<>();
    neighbours.forEach(nearest -> found.addAll(nearest.inOrder()));
    for (int i = 0; i < exemplars.size(); i++) {
      for (ShownDeparture.Exemplar exemplar : exemplars.get(i).inOrder()) {
        found.add(new FoundPhrase(i, exemplar));
      }
    }
    return found;
  }

  /** A solo of the corpus put together from the rows of the union. */
  private record CorpusSoloParts(
      String soloId,
      List<String> names,
      Map<String, Double> values,
      Map<String, List<PhraseValue>> phrases) {
    String performer() {
      return names.get(0);
    }

    String title() {
      return names.get(1);
    }

    boolean isIn(String groupBy, String groupValue, List<String> by) {
      return groupBy.equals(NormsJob.ALL)
          || groupValue.equals(names.get(2 + by.indexOf(groupBy)));
    }
  }

  private static CorpusSoloParts parts(Row row) {
    String soloId = row.getString(0);
    List<String> names = List.of();
    Map<String, Double> values = new TreeMap<>();
    Map<Integer, Row> phrases = new TreeMap<>();
    List<Row> phraseValues = new ArrayList<>();
    for (Row part : row.<Row>getList(1)) {
      switch (part.getInt(0)) {
        case NAMES -> names = part.getList(6);
        case SOLO_VALUE -> values.put(part.getString(2), part.getDouble(3));
        case PHRASE -> phrases.put(part.getInt(1), part);
        default -> phraseValues.add(part);
      }
    }
    Map<Integer, PhraseValue.Place> places = new TreeMap<>();
    phrases.forEach(
        (index, phrase) ->
            places.put(
                index,
                PhraseValue.Place.of(
                    soloId,
                    index,
                    phrase.getInt(5),
                    phrase.isNullAt(4) ? null : phrase.getDouble(4),
                    phrase.isNullAt(3) ? null : phrase.getDouble(3),
                    phrase.getList(6))));
    Map<String, List<PhraseValue>> byStatistic = new TreeMap<>();
    for (Row value : phraseValues) {
      byStatistic
          .computeIfAbsent(value.getString(2), statistic -> new ArrayList<>())
          .add(
              new PhraseValue(
                  places.get(value.getInt(1)), value.getDouble(3), value.getInt(5)));
    }
    return new CorpusSoloParts(soloId, names, values, byStatistic);
  }

  private static Near near(int place, CorpusSoloParts solo, RobustScale.Distance distance) {
    ArrayList<String> drivers = new ArrayList<>();
    distance.drivers().stream()
        .limit(DRIVERS)
        .map(RobustScale.Driver::key)
        .forEach(drivers::add);
    return new Near(
        place,
        solo.soloId(),
        solo.performer(),
        solo.title(),
        distance.value(),
        distance.shared(),
        drivers,
        distance.drivers().get(0).difference());
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
