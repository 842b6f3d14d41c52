package phrasecensus.spark;

import java.io.IOException;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.broadcast.Broadcast;
import phrasecensus.comparison.CorpusGroup;
import phrasecensus.comparison.PhraseValue;
import phrasecensus.comparison.ShownDeparture;
import phrasecensus.comparison.StatisticPlaces;
import phrasecensus.comparison.Student;
import phrasecensus.music.comparison.ComparedSolo;
import phrasecensus.music.likeness.LikenessSpace;
import phrasecensus.store.parquet.ColumnScan;
import phrasecensus.tables.Grouping;
import phrasecensus.tables.InputFile;
import phrasecensus.tables.TableRow;
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

  private final ArrayList<Grouping> by;
  private final ArrayList<StatisticPlaces> statistics = new ArrayList<>();
  private final TreeMap<String, Integer> order = new TreeMap<>();
  private final LikenessSpace space;
  private final ArrayList<double[]> places = new ArrayList<>();
  private final ArrayList<Student> solos = new ArrayList<>();
  private final ArrayList<ShownDeparture> departures;

  /**
   * @param by what groups the corpus, by columns of table solos
   * @param statistics compared ones, in the order of the space
   * @param space of the corpus; null where too few solos differ, and there are no neighbours then
   * @param students solos to find neighbours for; what is pooled is passed over
   * @param departures to find phrases of the corpus for
   */
  LikenessJob(
      List<Grouping> by,
      List<StatisticPlaces> statistics,
      LikenessSpace space,
      List<Student> students,
      List<ShownDeparture> departures) {
    this.by = new ArrayList<>(by);
    this.space = space;
    if (space != null) {
      for (StatisticPlaces each : statistics) {
        order.put(each.statistic(), this.statistics.size());
        // Of the corpus the tasks place every solo themselves.
        this.statistics.add(each.withoutSolos());
      }
      for (Student student : students) {
        if (student.scope().equals(Student.SOLO)) {
          solos.add(student);
          places.add(StatisticPlaces.of(student, statistics, by.isEmpty() ? "" : by.get(0).name()));
        }
      }
    }
    this.departures = new ArrayList<>(departures);
  }

  /** The finished rows, without order. */
  record Result(List<TableRow> neighbours, List<TableRow> exemplars) {}

  /**
   * @param parts of the tables of reading
   */
  Result run(TableParts parts) {
    if (solos.isEmpty() && departures.isEmpty()) {
      return new Result(List.of(), List.of());
    }
    Broadcast<LikenessJob> job = parts.broadcast(this);
    FlatMapFunction<TableParts.Part, Found> nearest = part -> job.value().nearest(part).iterator();
    TreeMap<Integer, Nearest<Near>> neighbours = new TreeMap<>();
    TreeMap<Integer, Nearest<ShownDeparture.Exemplar>> exemplars = new TreeMap<>();
    for (Found found : parts.of(InputFile.CORPUS).flatMap(nearest).collect()) {
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
          List<Near> inOrder = nearestSolos.inOrder();
          for (int i = 0; i < inOrder.size(); i++) {
            neighbourRows.add(row(solos.get(solo), i + 1, inOrder.get(i), inOrder.get(0)));
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

  /** Something on its way to the driver. */
  private sealed interface Found extends Serializable permits Near, FoundPhrase {}

  /**
   * A neighbour.
   *
   * @param solo place of the student's solo in the list of this job
   * @param difference in the first driver, student less corpus, in standard deviations of solos
   *     about their player's mean
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
        MOST_NEIGHBOURS, Comparator.comparingDouble(Near::distance).thenComparing(Near::neighbour));
  }

  private static Nearest<ShownDeparture.Exemplar> nearestPhrases() {
    return new Nearest<>(
        ShownDeparture.MOST_PHRASES,
        Comparator.comparingDouble(ShownDeparture.Exemplar::distance)
            .thenComparing(exemplar -> exemplar.phrase().soloId()));
  }

  private List<Found> nearest(TableParts.Part part) throws IOException {
    List<Nearest<Near>> neighbours = new ArrayList<>();
    solos.forEach(solo -> neighbours.add(nearestSolos()));
    List<Nearest<ShownDeparture.Exemplar>> exemplars = new ArrayList<>();
    departures.forEach(departure -> exemplars.add(nearestPhrases()));
    for (CorpusSoloParts solo : solos(part)) {
      for (int i = 0; i < solos.size(); i++) {
        int place = i;
        if (!solos.get(i).twins().contains(solo.soloId())) {
          space
              .ofSolos(places.get(i), solo.places())
              .ifPresent(distance -> neighbours.get(place).add(near(place, solo, distance)));
        }
      }
      for (int i = 0; i < departures.size(); i++) {
        ShownDeparture departure = departures.get(i);
        if (solo.isIn(departure, by) && !departure.twins().contains(solo.soloId())) {
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

  /** A solo of the corpus with what is asked about. */
  private record CorpusSoloParts(
      GroupScan.Solo solo, double[] places, Map<String, List<PhraseValue>> phrases) {
    String soloId() {
      return solo.text(0);
    }

    /** A value of it as it is compared. */
    ComparedSolo compared(double value, int n) {
      String group = solo.groups().isEmpty() ? "" : solo.groups().get(0);
      Number tempo = solo.number(4);
      return new ComparedSolo(
          soloId(),
          "",
          Grouping.isLeftover(group) ? "" : group,
          value,
          n,
          solo.number(3).intValue(),
          tempo == null ? Double.NaN : tempo.doubleValue());
    }

    boolean isIn(ShownDeparture departure, List<Grouping> by) {
      if (departure.groupBy().equals(CorpusGroup.ALL)) {
        return true;
      }
      for (int i = 0; i < by.size(); i++) {
        if (by.get(i).name().equals(departure.groupBy())) {
          return solo.groups().get(i).equals(departure.groupValue());
        }
      }
      return false;
    }
  }

  private Collection<CorpusSoloParts> solos(TableParts.Part part) throws IOException {
    Map<String, CorpusSoloParts> read = new TreeMap<>();
    try (GroupScan scan =
        GroupScan.open(part, by, "solo_id", "performer", "title", "phrases", "tempo_qpm")) {
      for (GroupScan.Solo row = scan.next(); row != null; row = scan.next()) {
        double[] nowhere = new double[statistics.size()];
        Arrays.fill(nowhere, Double.NaN);
        read.put(row.text(0), new CorpusSoloParts(row, nowhere, new HashMap<>()));
      }
    }
    if (!solos.isEmpty()) {
      try (ColumnScan scan = part.scan("solo_statistics", "solo_id", "statistic", "value", "n")) {
        for (Object[] row = scan.next(); row != null; row = scan.next()) {
          Integer statistic = order.get((String) row[1]);
          if (row[2] != null && statistic != null) {
            CorpusSoloParts solo = read.get((String) row[0]);
            solo.places()[statistic] =
                statistics
                    .get(statistic)
                    .tempo()
                    .place(solo.compared((Double) row[2], ((Number) row[3]).intValue()));
          }
        }
      }
    }
    if (!departures.isEmpty()) {
      addPhrases(part, read);
    }
    return read.values();
  }

  private void addPhrases(TableParts.Part part, Map<String, CorpusSoloParts> solosById)
      throws IOException {
    Map<String, List<PhraseValue.Place>> places = new HashMap<>();
    try (ColumnScan scan =
        part.scan(
            "phrases",
            "solo_id",
            "phrase_index",
            "first_note_index",
            "last_note_index",
            "tempo_qpm",
            "length_bars",
            "chord_qualities")) {
      for (Object[] row = scan.next(); row != null; row = scan.next()) {
        String soloId = (String) row[0];
        List<String> qualities = new ArrayList<>();
        ((List<?>) row[6]).forEach(quality -> qualities.add((String) quality));
        places
            .computeIfAbsent(soloId, solo -> new ArrayList<>())
            .add(
                PhraseValue.Place.of(
                    soloId,
                    (Integer) row[1],
                    (Integer) row[3] - (Integer) row[2] + 1,
                    (Double) row[4],
                    (Double) row[5],
                    qualities));
      }
    }
    Set<String> shown = new TreeSet<>();
    departures.forEach(departure -> shown.add(departure.shownBy()));
    try (ColumnScan scan =
        part.scan("phrase_statistics", "solo_id", "phrase_index", "statistic", "value", "n")) {
      for (Object[] row = scan.next(); row != null; row = scan.next()) {
        String statistic = (String) row[2];
        if (row[3] != null && shown.contains(statistic)) {
          // Phrases are written in order, so that the index is the place in the list.
          solosById
              .get((String) row[0])
              .phrases()
              .computeIfAbsent(statistic, key -> new ArrayList<>())
              .add(
                  new PhraseValue(
                      places.get((String) row[0]).get((Integer) row[1]),
                      (Double) row[3],
                      (Integer) row[4]));
        }
      }
    }
  }

  private Near near(int place, CorpusSoloParts solo, LikenessSpace.Distance distance) {
    ArrayList<String> drivers = new ArrayList<>();
    distance.drivers().stream()
        .limit(DRIVERS)
        .map(driver -> statistics.get(driver.statistic()).statistic())
        .forEach(drivers::add);
    return new Near(
        place,
        solo.soloId(),
        solo.solo().text(1),
        solo.solo().text(2),
        distance.value(),
        distance.shared(),
        drivers,
        distance.drivers().get(0).difference());
  }

  private TableRow row(Student solo, int place, Near near, Near nearest) {
    double unlike = space.unlike();
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
        .set("unlike_distance", Double.isNaN(unlike) ? null : (Double) unlike)
        .set("alike", !(nearest.distance() > unlike))
        .set("whitened_about", space.about().name().toLowerCase(Locale.ROOT))
        .build();
  }
}
