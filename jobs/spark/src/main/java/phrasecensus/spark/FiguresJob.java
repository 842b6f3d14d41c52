package phrasecensus.spark;

import java.io.IOException;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.apache.hadoop.fs.Path;
import org.apache.spark.api.java.function.Function;
import org.apache.spark.api.java.function.PairFlatMapFunction;
import org.apache.spark.broadcast.Broadcast;
import phrasecensus.music.pattern.FigureChoice;
import phrasecensus.music.pattern.FigureSearch;
import phrasecensus.music.pattern.PackedPattern;
import phrasecensus.music.pattern.SoloPatterns;
import phrasecensus.store.Durable;
import phrasecensus.store.parquet.ColumnScan;
import phrasecensus.store.parquet.TableFile;
import phrasecensus.tables.InputFile;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;
import scala.Tuple2;

/**
 * Builds the tables {@code figures} and {@code figure_places}: the few recurring patterns that the
 * report shows, with every place where they are found. The patterns of a student meet in one task;
 * places are written part by part, and only counts come to the driver.
 */
final class FiguresJob implements Serializable {
  private static final long serialVersionUID = 1L;

  private final ArrayList<FigureChoice.Candidate> shared;
  private final HashMap<String, HashSet<String>> ownInCorpus = new HashMap<>();
  private final String tables;
  private final ArrayList<Figure> figures = new ArrayList<>();

  /**
   * @param shared figures of the corpus, in the order in which they are shown
   * @param ownInCorpus solos of the corpus that are a student's own, by student
   * @param tables folder in which the parts of {@code figure_places} are written
   */
  FiguresJob(
      List<FigureChoice.Candidate> shared, Map<String, Set<String>> ownInCorpus, String tables) {
    this.shared = new ArrayList<>(shared);
    ownInCorpus.forEach((student, solos) -> this.ownInCorpus.put(student, new HashSet<>(solos)));
    this.tables = tables;
  }

  /**
   * What was found.
   *
   * @param places what was written into {@code figure_places}, by name of the file
   * @param figures rows of the table of that name, without order
   */
  record Result(Map<String, TableFile.Stored> places, List<TableRow> figures) {}

  /** Somebody's figure. */
  private record Figure(String owner, String student, int place, PackedPattern pattern)
      implements Serializable {
    boolean isOfCorpus() {
      return owner.equals(InputFile.CORPUS);
    }
  }

  Result run(TableParts parts) {
    figures.clear();
    addAll(InputFile.CORPUS, "", shared);
    own(parts).forEach((student, chosen) -> addAll(InputFile.STUDENT, student, chosen));
    Broadcast<FiguresJob> job = parts.broadcast(this);
    Function<TableParts.Part, PartPlaces> places = part -> job.value().writePlaces(part);
    Map<String, TableFile.Stored> written = new TreeMap<>();
    List<Count> counts = new ArrayList<>();
    figures.forEach(figure -> counts.add(new Count()));
    for (PartPlaces each : parts.all().map(places).collect()) {
      written.put(each.name(), each.stored());
      for (int i = 0; i < counts.size(); i++) {
        counts.get(i).add(each.counts().get(i));
      }
    }
    job.destroy();
    List<TableRow> rows = new ArrayList<>();
    for (int i = 0; i < counts.size(); i++) {
      rows.add(counts.get(i).row(figures.get(i)));
    }
    return new Result(written, rows);
  }

  private void addAll(String owner, String student, List<FigureChoice.Candidate> chosen) {
    for (int i = 0; i < chosen.size(); i++) {
      figures.add(new Figure(owner, student, i + 1, chosen.get(i).pattern()));
    }
  }

  /** What each student comes back to, by name. */
  private static Map<String, List<FigureChoice.Candidate>> own(TableParts parts) {
    PairFlatMapFunction<TableParts.Part, String, HashMap<PackedPattern, int[]>> counting =
        FiguresJob::countOfStudents;
    Map<String, List<FigureChoice.Candidate>> own = new TreeMap<>();
    parts
        .of(InputFile.STUDENT)
        .flatMapToPair(counting)
        .reduceByKey(FiguresJob::sum)
        .mapValues(FiguresJob::chosen)
        .collect()
        .forEach(each -> own.put(each._1(), each._2()));
    return own;
  }

  private static ArrayList<FigureChoice.Candidate> chosen(HashMap<PackedPattern, int[]> counts) {
    List<FigureChoice.Candidate> candidates = new ArrayList<>();
    counts.forEach(
        (pattern, count) ->
            candidates.add(new FigureChoice.Candidate(pattern, count[0], count[1])));
    return new ArrayList<>(FigureChoice.own(candidates));
  }

  private static HashMap<PackedPattern, int[]> sum(
      HashMap<PackedPattern, int[]> one, HashMap<PackedPattern, int[]> two) {
    HashMap<PackedPattern, int[]> sum = new HashMap<>(one);
    two.forEach(
        (pattern, count) ->
            sum.merge(pattern, count, (a, b) -> new int[] {a[0] + b[0], a[1] + b[1]}));
    return sum;
  }

  /** Solos and places of every pattern that may be shown, by student. */
  private static Iterator<Tuple2<String, HashMap<PackedPattern, int[]>>> countOfStudents(
      TableParts.Part part) throws IOException {
    Map<String, String> students = column(part, "student");
    Map<String, SoloPatterns> patterns = new LinkedHashMap<>();
    try (PhraseScan scan = PhraseScan.open(part)) {
      for (PhraseScan.Phrase phrase = scan.next(); phrase != null; phrase = scan.next()) {
        patterns
            .computeIfAbsent(phrase.soloId(), id -> new SoloPatterns())
            .add(phrase.midi(), phrase.onsets(), phrase.firstNote());
      }
    }
    Map<String, HashMap<PackedPattern, int[]>> counts = new TreeMap<>();
    patterns.forEach(
        (solo, of) -> {
          HashMap<PackedPattern, int[]> ofStudent =
              counts.computeIfAbsent(students.get(solo), name -> new HashMap<>());
          of.occurrences()
              .forEach(
                  (pattern, found) -> {
                    if (FigureChoice.isEligible(pattern)) {
                      int[] count = ofStudent.computeIfAbsent(pattern, any -> new int[2]);
                      count[0]++;
                      count[1] += found.count();
                    }
                  });
        });
    List<Tuple2<String, HashMap<PackedPattern, int[]>>> all = new ArrayList<>();
    counts.forEach((student, of) -> all.add(new Tuple2<>(student, of)));
    return all.iterator();
  }

  /** A column of texts of {@code solos}, by solo; empty where it is. */
  private static Map<String, String> column(TableParts.Part part, String column)
      throws IOException {
    Map<String, String> texts = new HashMap<>();
    try (ColumnScan scan = part.scan("solos", "solo_id", column)) {
      for (Object[] row = scan.next(); row != null; row = scan.next()) {
        texts.put((String) row[0], row[1] == null ? "" : (String) row[1]);
      }
    }
    return texts;
  }

  /** Places of one figure. */
  private static final class Count implements Serializable {
    private static final long serialVersionUID = 1L;

    private final TreeSet<String> players = new TreeSet<>();
    private int corpusSolos;
    private int corpusWindows;
    private int studentSolos;
    private int studentWindows;
    private String exampleSolo;
    private int exampleNote;

    /**
     * Takes the places in one solo.
     *
     * @param player empty when not named
     * @param example true where the solo may show the figure
     */
    void add(
        boolean ofCorpus,
        String soloId,
        String player,
        int windows,
        int firstNote,
        boolean example) {
      if (ofCorpus) {
        corpusSolos++;
        corpusWindows += windows;
        if (!player.isBlank()) {
          players.add(player.strip());
        }
      } else {
        studentSolos++;
        studentWindows += windows;
      }
      if (example) {
        showFirst(soloId, firstNote);
      }
    }

    private void showFirst(String soloId, int note) {
      if (soloId != null && (exampleSolo == null || soloId.compareTo(exampleSolo) < 0)) {
        exampleSolo = soloId;
        exampleNote = note;
      }
    }

    void add(Count other) {
      players.addAll(other.players);
      corpusSolos += other.corpusSolos;
      corpusWindows += other.corpusWindows;
      studentSolos += other.studentSolos;
      studentWindows += other.studentWindows;
      showFirst(other.exampleSolo, other.exampleNote);
    }

    TableRow row(Figure figure) {
      TableRow.Builder row =
          TableRow.of(TableSchemas.named("figures"))
              .set("owner", figure.owner())
              .set("student", figure.student())
              .set("place", figure.place())
              .set("pattern", figure.pattern().unpacked().text())
              .set("length", figure.pattern().length())
              .set("corpus_solos", corpusSolos)
              .set("corpus_players", players.size())
              .set("corpus_windows", corpusWindows)
              .set("example_solo_id", exampleSolo)
              .set("example_note_index", exampleNote);
      if (!figure.isOfCorpus()) {
        row.set("student_solos", studentSolos).set("student_windows", studentWindows);
      }
      return row.build();
    }
  }

  /**
   * What a part holds.
   *
   * @param name of its file
   * @param counts one for each figure
   */
  private record PartPlaces(String name, TableFile.Stored stored, ArrayList<Count> counts)
      implements Serializable {}

  /** A place in a solo. */
  private record Place(PhraseScan.Phrase phrase, FigureSearch.Place found) {
    int firstNote() {
      return phrase.firstNote() + found.first();
    }
  }

  private PartPlaces writePlaces(TableParts.Part part) throws IOException {
    ArrayList<Count> counts = new ArrayList<>();
    figures.forEach(figure -> counts.add(new Count()));
    FigureSearch search =
        new FigureSearch(figures.stream().map(Figure::pattern).distinct().toList());
    boolean ofCorpus = part.role().equals(InputFile.CORPUS);
    Map<String, String> names = column(part, ofCorpus ? "performer" : "student");
    Path file = new Path(tables + "/figure_places", part.name());
    try (TableFile into =
            TableFile.create(
                file, TableSchemas.named("figure_places"), part.configuration().value().value());
        PhraseScan scan = PhraseScan.open(part)) {
      String solo = null;
      Map<PackedPattern, List<Place>> places = new HashMap<>();
      for (PhraseScan.Phrase phrase = scan.next(); phrase != null; phrase = scan.next()) {
        if (!phrase.soloId().equals(solo)) {
          write(into, part.role(), solo, names, places, counts);
          places.clear();
          solo = phrase.soloId();
        }
        for (FigureSearch.Place found : search.places(phrase.midi())) {
          places
              .computeIfAbsent(found.pattern(), any -> new ArrayList<>())
              .add(new Place(phrase, found));
        }
      }
      write(into, part.role(), solo, names, places, counts);
      TableFile.Stored stored = into.stored();
      Durable.force(file.getFileSystem(part.configuration().value().value()), List.of(file));
      return new PartPlaces(part.name(), stored, counts);
    }
  }

  /** Writes the places in a solo, figure by figure, and counts them. */
  private void write(
      TableFile into,
      String role,
      String soloId,
      Map<String, String> names,
      Map<PackedPattern, List<Place>> places,
      List<Count> counts)
      throws IOException {
    boolean ofCorpus = role.equals(InputFile.CORPUS);
    for (int i = 0; i < figures.size(); i++) {
      Figure figure = figures.get(i);
      List<Place> found = places.getOrDefault(figure.pattern(), List.of());
      if (found.isEmpty() || !isShown(figure, ofCorpus, soloId, names.get(soloId))) {
        continue;
      }
      counts
          .get(i)
          .add(
              ofCorpus,
              soloId,
              names.get(soloId),
              found.size(),
              found.get(0).firstNote(),
              ofCorpus == figure.isOfCorpus());
      for (Place place : found) {
        into.write(
            TableRow.of(TableSchemas.named("figure_places"))
                .set("owner", figure.owner())
                .set("student", figure.student())
                .set("place", figure.place())
                .set("solo_id", soloId)
                .set("role", role)
                .set("file", soloId.substring(role.length() + 1))
                .set("note_index", place.firstNote())
                .set("last_note_index", place.phrase().firstNote() + place.found().last())
                .set("phrase_index", place.phrase().phraseIndex())
                .set("bar_number", place.phrase().bars().get(place.found().first()))
                .build());
      }
    }
  }

  /**
   * A figure of the corpus is shown in its solos; one of a student in the student's, and in those
   * of the corpus that are somebody else's.
   *
   * @param name the player of a corpus solo, the student of a student's
   */
  private boolean isShown(Figure figure, boolean ofCorpus, String soloId, String name) {
    if (figure.isOfCorpus()) {
      return ofCorpus;
    }
    return ofCorpus
        ? !ownInCorpus.getOrDefault(figure.student(), new HashSet<>()).contains(soloId)
        : figure.student().equals(name);
  }
}
