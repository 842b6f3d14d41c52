package phrasecensus.report.rows;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;

/**
 * The rows of a study that its report shows. Small tables are read whole; of the corpus only the
 * values that a picture draws, one statistic at a time, so that the cost does not grow with
 * everything a large corpus holds.
 */
public final class StudyRows {
  private static final String CORPUS = "corpus";
  private static final String STUDENT = "student";

  private final TableSource tables;
  private final List<SoloFacts> corpus;
  private final List<Student> students;
  private final Map<Group, Map<String, CorpusNorm>> norms;
  private final List<FileOutcome> rejected;
  private final List<Problem> problems;
  private final int files;
  private final List<Double> corpusPhraseBars;
  private final Map<String, Map<String, Double>> corpusValues = new HashMap<>();

  private StudyRows(
      TableSource tables,
      List<SoloFacts> corpus,
      List<Student> students,
      Map<Group, Map<String, CorpusNorm>> norms,
      List<FileOutcome> rejected,
      List<Problem> problems,
      int files,
      List<Double> corpusPhraseBars) {
    this.tables = tables;
    this.corpus = corpus;
    this.students = students;
    this.norms = norms;
    this.rejected = rejected;
    this.problems = problems;
    this.files = files;
    this.corpusPhraseBars = corpusPhraseBars;
  }

  /**
   * Reads what the pages need.
   *
   * @throws phrasecensus.tables.InputException if a table is missing or cannot be read
   */
  public static StudyRows read(TableSource tables) {
    List<SoloFacts> corpus = new ArrayList<>();
    Map<String, List<SoloFacts>> byStudent = new TreeMap<>();
    for (TableRow row : tables.rows("solos")) {
      SoloFacts facts = SoloFacts.of(row);
      if (STUDENT.equals(row.text("role"))) {
        String name = facts.student() == null ? "" : facts.student();
        byStudent.computeIfAbsent(name, any -> new ArrayList<>()).add(facts);
      } else {
        corpus.add(facts);
      }
    }
    Map<Group, Map<String, CorpusNorm>> norms = new LinkedHashMap<>();
    for (TableRow row : tables.rows("norms")) {
      CorpusNorm norm = CorpusNorm.of(row);
      norms.computeIfAbsent(norm.group(), any -> new LinkedHashMap<>()).put(norm.statistic(), norm);
    }
    List<FileOutcome> rejected = new ArrayList<>();
    int files = 0;
    for (TableRow row : tables.rows("files")) {
      files++;
      if (!"read".equals(row.text("outcome"))) {
        rejected.add(FileOutcome.of(row));
      }
    }
    List<Problem> problems = tables.rows("problems").stream().map(Problem::of).toList();
    List<Double> phraseBars = new ArrayList<>();
    for (TableRow row : tables.rows("phrases", Map.of("role", CORPUS))) {
      if (!row.isMissing("length_bars")) {
        phraseBars.add(row.number("length_bars"));
      }
    }
    return new StudyRows(
        tables,
        List.copyOf(corpus),
        students(tables, byStudent),
        norms,
        List.copyOf(rejected),
        problems,
        files,
        List.copyOf(phraseBars));
  }

  private static List<Student> students(
      TableSource tables, Map<String, List<SoloFacts>> byStudent) {
    if (byStudent.isEmpty()) {
      return List.of();
    }
    Map<String, List<Comparison>> comparisons = new HashMap<>();
    for (TableRow row : tables.rows("departures")) {
      comparisons
          .computeIfAbsent(row.text("student"), any -> new ArrayList<>())
          .add(Comparison.of(row));
    }
    Map<String, Map<String, Value>> values = new HashMap<>();
    for (TableRow row : tables.rows("solo_statistics", Map.of("role", STUDENT))) {
      values
          .computeIfAbsent(row.text("solo_id"), any -> new HashMap<>())
          .put(row.text("statistic"), new Value(row.number("value"), row.integer("n")));
    }
    Map<String, List<SoloLine.BarSpan>> bars = bySolo(tables, "bars", SoloLine.BarSpan::of);
    Map<String, List<SoloLine.ChordSpan>> chords = bySolo(tables, "chords", SoloLine.ChordSpan::of);
    Map<String, List<SoloLine.Tone>> notes = bySolo(tables, "notes", SoloLine.Tone::of);
    Map<String, List<SoloLine.PhraseSpan>> phrases =
        bySolo(tables, "phrases", SoloLine.PhraseSpan::of);
    Map<String, List<SoloLine.LandingMark>> landings =
        bySolo(tables, "landings", SoloLine.LandingMark::of);
    Map<String, List<SoloLine.GraceTone>> graceNotes =
        bySolo(tables, "grace_notes", SoloLine.GraceTone::of);
    List<Student> students = new ArrayList<>();
    byStudent.forEach(
        (name, solos) -> {
          List<StudentSolo> read = new ArrayList<>();
          solos.stream()
              .sorted(
                  Comparator.comparing(
                          SoloFacts::date, Comparator.nullsLast(Comparator.naturalOrder()))
                      .thenComparing(SoloFacts::soloId))
              .forEach(
                  facts ->
                      read.add(
                          new StudentSolo(
                              facts,
                              values.getOrDefault(facts.soloId(), Map.of()),
                              new SoloLine(
                                  bars.getOrDefault(facts.soloId(), List.of()),
                                  chords.getOrDefault(facts.soloId(), List.of()),
                                  notes.getOrDefault(facts.soloId(), List.of()),
                                  phrases.getOrDefault(facts.soloId(), List.of()),
                                  landings.getOrDefault(facts.soloId(), List.of()),
                                  graceNotes.getOrDefault(facts.soloId(), List.of())))));
          students.add(new Student(name, read, comparisons.getOrDefault(name, List.of())));
        });
    return List.copyOf(students);
  }

  private static <T> Map<String, List<T>> bySolo(
      TableSource tables, String table, Function<TableRow, T> reading) {
    Map<String, List<T>> found = new HashMap<>();
    for (TableRow row : tables.rows(table, Map.of("role", STUDENT))) {
      found.computeIfAbsent(row.text("solo_id"), any -> new ArrayList<>()).add(reading.apply(row));
    }
    return found;
  }

  /** The corpus solos, in the order of the table. */
  public List<SoloFacts> corpus() {
    return corpus;
  }

  /** The students, by name. */
  public List<Student> students() {
    return students;
  }

  /** How many input files there were, read or not. */
  public int files() {
    return files;
  }

  /** Files that were not read. */
  public List<FileOutcome> rejected() {
    return rejected;
  }

  public List<Problem> problems() {
    return problems;
  }

  /** Length in bars of every corpus phrase in a metre. */
  public List<Double> corpusPhraseBars() {
    return corpusPhraseBars;
  }

  /** The norm of a statistic over a group. */
  public Optional<CorpusNorm> norm(Group group, String statistic) {
    return Optional.ofNullable(norms.getOrDefault(group, Map.of()).get(statistic));
  }

  /** The columns that make groups, without {@code all}, in the order of the table. */
  public List<String> groupings() {
    Set<String> columns = new LinkedHashSet<>();
    for (Group group : norms.keySet()) {
      if (!group.isWholeCorpus()) {
        columns.add(group.by());
      }
    }
    return List.copyOf(columns);
  }

  /** The groups that a column makes, in the order of the table. */
  public List<Group> groups(String by) {
    return norms.keySet().stream().filter(group -> group.by().equals(by)).toList();
  }

  /** Corpus solos of a group. */
  public int solosIn(Group group) {
    return (int) corpus.stream().filter(solo -> solo.belongsTo(group)).count();
  }

  /** Different named players in the corpus. */
  public int players() {
    return (int)
        corpus.stream().map(SoloFacts::performer).filter(p -> !p.isBlank()).distinct().count();
  }

  /** The defined values of a statistic over the corpus solos of a group, ascending. */
  public List<Double> corpusValues(Group group, String statistic) {
    Map<String, Double> values = corpusValues.computeIfAbsent(statistic, this::readCorpusValues);
    return corpus.stream()
        .filter(solo -> solo.belongsTo(group))
        .map(solo -> values.get(solo.soloId()))
        .filter(java.util.Objects::nonNull)
        .sorted()
        .toList();
  }

  private Map<String, Double> readCorpusValues(String statistic) {
    Map<String, Double> values = new HashMap<>();
    for (TableRow row :
        tables.rows("solo_statistics", Map.of("role", CORPUS, "statistic", statistic))) {
      if (!row.isMissing("value")) {
        values.put(row.text("solo_id"), row.number("value"));
      }
    }
    return values;
  }
}
