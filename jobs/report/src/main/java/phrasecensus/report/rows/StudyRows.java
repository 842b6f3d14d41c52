package phrasecensus.report.rows;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;
import phrasecensus.tables.Grouping;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.MethodsText;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;

/**
 * The rows of a study that its report shows. Small tables are read whole; of the corpus only what a
 * page shows, so that the cost does not grow with everything a large corpus holds. Several threads
 * may ask at once; they read the tables one after the other.
 */
public final class StudyRows {
  /** Of a corpus with more solos than this no value is drawn by itself. */
  public static final int MOST_VALUES = 300;

  private static final String CORPUS = "corpus";
  private static final String STUDENT = "student";

  private final TableSource tables;
  private final Set<String> present;
  private final boolean concertPitch;
  private final List<SoloFacts> corpus;
  private final List<Student> students;
  private final Map<Group, Map<String, CorpusNorm>> norms;
  private final List<Contrast> contrasts;
  private final List<RuleNorm> ruleNorms;
  private final List<FileOutcome> rejected;
  private final List<Problem> problems;
  private final int files;
  private final List<Twin> twins;
  private final Map<String, List<Double>> corpusPhraseBars;
  private final Map<String, SoloFacts> corpusById = new HashMap<>();
  private final Map<Group, List<SoloFacts>> members = new ConcurrentHashMap<>();
  private final Map<String, SoloLine> corpusLines = new ConcurrentHashMap<>();
  private Map<String, Map<String, Double>> corpusValues;

  private StudyRows(
      TableSource tables,
      Set<String> present,
      boolean concertPitch,
      List<SoloFacts> corpus,
      List<Student> students,
      Map<Group, Map<String, CorpusNorm>> norms,
      List<Contrast> contrasts,
      List<RuleNorm> ruleNorms,
      List<FileOutcome> rejected,
      List<Problem> problems,
      int files,
      List<Twin> twins,
      Map<String, List<Double>> corpusPhraseBars) {
    this.tables = tables;
    this.present = present;
    this.concertPitch = concertPitch;
    this.corpus = corpus;
    this.students = students;
    this.norms = norms;
    this.contrasts = contrasts;
    this.ruleNorms = ruleNorms;
    this.rejected = rejected;
    this.problems = problems;
    this.files = files;
    this.twins = twins;
    this.corpusPhraseBars = corpusPhraseBars;
    corpus.forEach(solo -> corpusById.put(solo.soloId(), solo));
  }

  /**
   * Reads what the pages need.
   *
   * @param manifest of the study: what tables it has, and by what it groups solos; pages leave out
   *     what other tables would tell
   * @param concertPitch true to have every line as it sounds, false as its player reads it
   * @throws phrasecensus.tables.InputException if a table cannot be read
   */
  public static StudyRows read(
      TableSource tables, Manifest manifest, boolean concertPitch) {
    Set<String> present = manifest.tables().keySet();
    List<Grouping> by = manifest.by().stream().map(Grouping::parse).toList();
    List<SoloFacts> corpus = new ArrayList<>();
    Map<String, List<SoloFacts>> byStudent = new TreeMap<>();
    for (TableRow row : tables.rows("solos")) {
      SoloFacts facts = SoloFacts.of(row, by);
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
    Map<String, List<TableRow>> readFiles = new TreeMap<>();
    for (TableRow row : tables.rows("files")) {
      files++;
      if (!row.isMissing("sha256") && !row.isMissing("solo_id")) {
        readFiles.computeIfAbsent(row.text("sha256"), any -> new ArrayList<>()).add(row);
      }
      if (!"read".equals(row.text("outcome"))) {
        rejected.add(FileOutcome.of(row));
      }
    }
    List<Problem> problems = tables.rows("problems").stream().map(Problem::of).toList();
    Map<String, List<Double>> phraseBars = new HashMap<>();
    for (TableRow row : tables.rows("phrases", Map.of("role", CORPUS))) {
      if (!row.isMissing("length_bars")) {
        phraseBars
            .computeIfAbsent(row.text("solo_id"), any -> new ArrayList<>())
            .add(row.number("length_bars"));
      }
    }
    List<Contrast> contrasts =
        present.contains("contrasts")
            ? tables.rows("contrasts").stream().map(Contrast::of).toList()
            : List.of();
    List<RuleNorm> ruleNorms =
        present.contains("sensitivity")
            ? tables.rows("sensitivity", Map.of("group_by", Group.ALL.by())).stream()
                .map(RuleNorm::of)
                .toList()
            : List.of();
    return new StudyRows(
        tables,
        Set.copyOf(present),
        concertPitch,
        List.copyOf(corpus),
        students(tables, present, byStudent, concertPitch),
        norms,
        contrasts,
        ruleNorms,
        List.copyOf(rejected),
        problems,
        files,
        twins(readFiles.values()),
        phraseBars);
  }

  /** Files with the same bytes in both roles, by the corpus file. */
  private static List<Twin> twins(Collection<List<TableRow>> sameBytes) {
    List<Twin> twins = new ArrayList<>();
    for (List<TableRow> same : sameBytes) {
      for (TableRow one : same) {
        for (TableRow other : same) {
          if (CORPUS.equals(one.text("role")) && STUDENT.equals(other.text("role"))) {
            twins.add(new Twin(one.text("file"), other.text("file"), other.text("solo_id")));
          }
        }
      }
    }
    twins.sort(Comparator.comparing(Twin::corpusFile).thenComparing(Twin::studentFile));
    return List.copyOf(twins);
  }

  private static List<Student> students(
      TableSource tables,
      Set<String> present,
      Map<String, List<SoloFacts>> byStudent,
      boolean concertPitch) {
    if (byStudent.isEmpty()) {
      return List.of();
    }
    Map<String, List<Comparison>> comparisons =
        by(tables, present, "departures", "student", Comparison::of);
    Map<String, Map<String, Value>> values = new HashMap<>();
    for (TableRow row : tables.rows("solo_statistics", Map.of("role", STUDENT))) {
      values
          .computeIfAbsent(row.text("solo_id"), any -> new HashMap<>())
          .put(row.text("statistic"), new Value(row.number("value"), row.integer("n")));
    }
    Map<String, Map<Integer, Map<String, Value>>> phraseValues = new HashMap<>();
    for (TableRow row : tables.rows("phrase_statistics", Map.of("role", STUDENT))) {
      phraseValues
          .computeIfAbsent(row.text("solo_id"), any -> new HashMap<>())
          .computeIfAbsent(row.integer("phrase_index"), any -> new HashMap<>())
          .put(row.text("statistic"), new Value(row.number("value"), row.integer("n")));
    }
    Map<String, List<Neighbour>> neighbours =
        by(tables, present, "neighbours", "solo_id", Neighbour::of);
    Map<String, List<Exemplar>> exemplars =
        by(tables, present, "exemplars", "student", Exemplar::of);
    Map<String, List<Mixture>> mixtures =
        by(tables, present, "mixtures", "student", Mixture::of);
    Map<String, List<Trend>> trends = by(tables, present, "trends", "student", Trend::of);
    Map<String, SoloLine> lines = lines(table -> tables.rows(table, Map.of("role", STUDENT)), concertPitch);
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
                              phraseValues.getOrDefault(facts.soloId(), Map.of()),
                              lines.getOrDefault(facts.soloId(), SoloLine.NONE),
                              neighbours.getOrDefault(facts.soloId(), List.of()))));
          students.add(
              new Student(
                  name,
                  read,
                  comparisons.getOrDefault(name, List.of()),
                  trends.getOrDefault(name, List.of()),
                  exemplars.getOrDefault(name, List.of()),
                  mixtures.getOrDefault(name, List.of())));
        });
    return List.copyOf(students);
  }

  private static <T> Map<String, List<T>> by(
      TableSource tables,
      Set<String> present,
      String table,
      String column,
      Function<TableRow, T> reading) {
    return present.contains(table) ? by(tables.rows(table), column, reading) : Map.of();
  }

  private static <T> Map<String, List<T>> by(
      List<TableRow> rows, String column, Function<TableRow, T> reading) {
    Map<String, List<T>> found = new HashMap<>();
    for (TableRow row : rows) {
      found.computeIfAbsent(row.text(column), any -> new ArrayList<>()).add(reading.apply(row));
    }
    return found;
  }

  private static Map<String, SoloLine> lines(
      Function<String, List<TableRow>> rows, boolean concertPitch) {
    Map<String, List<SoloLine.BarSpan>> bars =
        by(rows.apply("bars"), "solo_id", SoloLine.BarSpan::of);
    Map<String, List<SoloLine.ChordSpan>> chords =
        by(rows.apply("chords"), "solo_id", SoloLine.ChordSpan::of);
    Map<String, List<SoloLine.Tone>> notes =
        by(rows.apply("notes"), "solo_id", SoloLine.Tone::of);
    Map<String, List<SoloLine.PhraseSpan>> phrases =
        by(rows.apply("phrases"), "solo_id", SoloLine.PhraseSpan::of);
    Map<String, List<SoloLine.LandingMark>> landings =
        by(rows.apply("landings"), "solo_id", SoloLine.LandingMark::of);
    Map<String, List<SoloLine.GraceTone>> graceNotes =
        by(rows.apply("grace_notes"), "solo_id", SoloLine.GraceTone::of);
    Map<String, SoloLine> lines = new HashMap<>();
    for (String solo : bars.keySet()) {
      SoloLine line =
          new SoloLine(
              bars.get(solo),
              chords.getOrDefault(solo, List.of()),
              notes.getOrDefault(solo, List.of()),
              phrases.getOrDefault(solo, List.of()),
              landings.getOrDefault(solo, List.of()),
              graceNotes.getOrDefault(solo, List.of()));
      lines.put(solo, concertPitch ? line.atConcertPitch() : line);
    }
    return lines;
  }

  /** The corpus solos, in the order of the table. */
  public List<SoloFacts> corpus() {
    return corpus;
  }

  /** The students, by name. */
  public List<Student> students() {
    return students;
  }

  /** True when the study has a table. */
  public boolean has(String table) {
    return present.contains(table);
  }

  /** How many input files there were, read or not. */
  public int files() {
    return files;
  }

  /** Corpus files that are a student's too: left out where that student is compared. */
  public List<Twin> twins() {
    return twins;
  }

  /** Files that were not read. */
  public List<FileOutcome> rejected() {
    return rejected;
  }

  public List<Problem> problems() {
    return problems;
  }

  /** Pairs of groups, statistic by statistic; empty in a study without the table. */
  public List<Contrast> contrasts() {
    return contrasts;
  }

  /** Norms of the whole corpus under every phrase rule; empty where the study asked for one rule. */
  public List<RuleNorm> ruleNorms() {
    return ruleNorms;
  }

  /** Length in bars of every phrase in a metre of a group of corpus solos. */
  public List<Double> corpusPhraseBars(Group group) {
    return members(group).stream()
        .flatMap(solo -> corpusPhraseBars.getOrDefault(solo.soloId(), List.of()).stream())
        .toList();
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

  /** The corpus solos of a group, in the order of the table. */
  public List<SoloFacts> corpus(Group group) {
    return members(group);
  }

  /** True when a corpus solo belongs to a group. */
  public boolean isIn(Group group, String soloId) {
    SoloFacts solo = corpusById.get(soloId);
    return solo != null && solo.belongsTo(group);
  }

  /** How many corpus solos a group has. */
  public int solosIn(Group group) {
    return members(group).size();
  }

  private List<SoloFacts> members(Group group) {
    return members.computeIfAbsent(
        group, any -> corpus.stream().filter(solo -> solo.belongsTo(group)).toList());
  }

  /** Different named players in a group of the corpus. */
  public int players(Group group) {
    return (int)
        members(group).stream().map(SoloFacts::performer).filter(p -> !p.isBlank()).distinct().count();
  }

  /**
   * The defined values of a statistic over the corpus solos of a group, ascending; empty when the
   * corpus has more solos than {@link #MOST_VALUES} and the group has a norm.
   */
  public List<Double> corpusValues(Group group, String statistic) {
    if (corpus.size() > MOST_VALUES && norm(group, statistic).map(CorpusNorm::n).orElse(0) > 5) {
      return List.of();
    }
    Map<String, Double> values = everyCorpusValue().getOrDefault(statistic, Map.of());
    return members(group).stream()
        .map(solo -> values.get(solo.soloId()))
        .filter(Objects::nonNull)
        .sorted()
        .toList();
  }

  private Map<String, Map<String, Double>> everyCorpusValue() {
    synchronized (tables) {
      if (corpusValues == null) {
        corpusValues = readCorpusValues();
      }
      return corpusValues;
    }
  }

  /** By statistic and solo: of a large corpus only those of solos in groups without a norm. */
  private Map<String, Map<String, Double>> readCorpusValues() {
    List<TableRow> rows;
    if (corpus.size() <= MOST_VALUES) {
      rows = tables.rows("solo_statistics", Map.of("role", CORPUS));
    } else {
      Set<String> wanted = new TreeSet<>();
      for (Group group : norms.keySet()) {
        if (members(group).size() <= MOST_VALUES / 10) {
          members(group).forEach(solo -> wanted.add(solo.soloId()));
        }
      }
      rows = tables.rows("solo_statistics", "solo_id", wanted);
    }
    Map<String, Map<String, Double>> values = new HashMap<>();
    for (TableRow row : rows) {
      if (!row.isMissing("value")) {
        values
            .computeIfAbsent(row.text("statistic"), any -> new HashMap<>())
            .put(row.text("solo_id"), row.number("value"));
      }
    }
    return values;
  }

  /** A corpus solo. */
  public Optional<SoloFacts> corpusSolo(String soloId) {
    return Optional.ofNullable(corpusById.get(soloId));
  }

  /** Reads the lines of corpus solos that a page will draw, in one pass over the tables. */
  public void prepareLines(Collection<String> soloIds) {
    Set<String> missing = new TreeSet<>(soloIds);
    missing.removeAll(corpusLines.keySet());
    missing.retainAll(corpusById.keySet());
    if (!missing.isEmpty()) {
      synchronized (tables) {
        corpusLines.putAll(lines(table -> tables.rows(table, "solo_id", missing), concertPitch));
      }
    }
  }

  /** The line of a corpus solo; without anything when the corpus has no such solo. */
  public SoloLine corpusLine(String soloId) {
    prepareLines(Set.of(soloId));
    return corpusLines.getOrDefault(soloId, SoloLine.NONE);
  }

  /** What a paper would say of the study, a paragraph each. */
  public List<String> methods(Manifest manifest, StatisticsCatalogue catalogue) {
    synchronized (tables) {
      return MethodsText.paragraphs(manifest, tables, catalogue);
    }
  }

  /** A value of a phrase of the corpus. */
  public record PhraseValue(String soloId, int phrase, String statistic, double value, int n) {}

  /** The defined values of the phrases of some corpus solos, in the order of the table. */
  public List<PhraseValue> phraseValues(Set<String> soloIds) {
    List<TableRow> rows;
    synchronized (tables) {
      rows = tables.rows("phrase_statistics", "solo_id", soloIds);
    }
    return rows.stream()
        .filter(row -> !row.isMissing("value"))
        .map(
            row ->
                new PhraseValue(
                    row.text("solo_id"),
                    row.integer("phrase_index"),
                    row.text("statistic"),
                    row.number("value"),
                    row.integer("n")))
        .toList();
  }
}
