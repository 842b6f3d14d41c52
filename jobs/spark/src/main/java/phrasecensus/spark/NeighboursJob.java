package phrasecensus.spark;

import java.io.IOException;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.broadcast.Broadcast;
import phrasecensus.music.norm.RobustScale;
import phrasecensus.spark.parquet.ColumnScan;
import phrasecensus.tables.TableRow;
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
  List<TableRow> run(TableParts parts) {
    if (solos.isEmpty() || units.size() < RobustScale.LEAST_SHARED) {
      return List.of();
    }
    Broadcast<NeighboursJob> job = parts.broadcast(this);
    FlatMapFunction<TableParts.Part, Near> nearest = part -> job.value().nearest(part).iterator();
    Map<Integer, List<Near>> bySolo = new TreeMap<>();
    for (Near near : parts.of(InputFile.CORPUS).flatMap(nearest).collect()) {
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

  private List<Near> nearest(TableParts.Part part) throws IOException {
    Map<String, Map<String, Double>> corpus = new HashMap<>();
    Map<String, List<String>> names = new HashMap<>();
    try (ColumnScan scan = part.scan("solos", "solo_id", "performer", "title")) {
      for (Object[] row = scan.next(); row != null; row = scan.next()) {
        names.put((String) row[0], Arrays.asList((String) row[1], (String) row[2]));
        corpus.put((String) row[0], new HashMap<>());
      }
    }
    try (ColumnScan scan = part.scan("solo_statistics", "solo_id", "statistic", "value")) {
      for (Object[] row = scan.next(); row != null; row = scan.next()) {
        if (row[2] != null && units.containsKey((String) row[1])) {
          corpus.get((String) row[0]).put((String) row[1], (Double) row[2]);
        }
      }
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
