package phrasecensus.report.rows;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;
import java.util.stream.Stream;
import phrasecensus.tables.Among;
import phrasecensus.tables.Columns;
import phrasecensus.tables.Grouping;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.MethodsText;
import phrasecensus.tables.Row;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.Table;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;
import phrasecensus.tables.TextColumn;
import phrasecensus.tables.row.AnswersRow;
import phrasecensus.tables.row.BarsRow;
import phrasecensus.tables.row.ChordsRow;
import phrasecensus.tables.row.ContextNormsRow;
import phrasecensus.tables.row.ContrastsRow;
import phrasecensus.tables.row.DeparturesRow;
import phrasecensus.tables.row.ExemplarsRow;
import phrasecensus.tables.row.FiguresRow;
import phrasecensus.tables.row.GraceNotesRow;
import phrasecensus.tables.row.LandingsRow;
import phrasecensus.tables.row.MixturesRow;
import phrasecensus.tables.row.NeighboursRow;
import phrasecensus.tables.row.NormsRow;
import phrasecensus.tables.row.NotesRow;
import phrasecensus.tables.row.PhraseStatisticsRow;
import phrasecensus.tables.row.PhrasesRow;
import phrasecensus.tables.row.Role;
import phrasecensus.tables.row.SensitivityRow;
import phrasecensus.tables.row.SoloStatisticsRow;
import phrasecensus.tables.row.SolosRow;
import phrasecensus.tables.row.TrendsRow;

/**
 * The rows of a study that its report shows. Small tables are read whole. The solos of the corpus
 * and their phrases are counted as their rows pass by; held is only what is known of solos that a
 * page draws, so that memory does not grow with the corpus. Several threads may ask at once.
 */
public final class StudyRows {
  /** Of a corpus with more solos than this no value is drawn by itself. */
  public static final int MOST_VALUES = 300;

  /** Of files and problems the pages list no more than so many. */
  public static final int MOST_LISTED = 100;

  /** In a larger corpus values are told one by one where a group has no more than so many. */
  private static final int MOST_OF_A_LARGE_CORPUS = 5;

  /** For fewer solos a thread of their own gains nothing. */
  private static final int LEAST_SOLOS_AT_ONCE = 20;

  private final TableSource tables;
  private final Set<String> present;
  private final boolean concertPitch;
  private final List<Grouping> by;
  private final CorpusCounts corpus;
  private final List<Student> students;
  private final Map<Group, Map<String, CorpusNorm>> norms;
  private final List<Contrast> contrasts;
  private final List<RuleNorm> ruleNorms;
  private final InputFiles files;
  private final FileProblems.Listed problems;
  private final Map<String, SoloFacts> corpusFacts = new ConcurrentHashMap<>();
  private final Map<String, SoloLine> corpusLines = new ConcurrentHashMap<>();
  private Map<Group, Map<String, List<Double>>> corpusValues;
  private Figures figures;

  private StudyRows(
      TableSource tables,
      Set<String> present,
      boolean concertPitch,
      List<Grouping> by,
      CorpusCounts corpus,
      List<Student> students,
      Map<Group, Map<String, CorpusNorm>> norms,
      List<Contrast> contrasts,
      List<RuleNorm> ruleNorms,
      InputFiles files,
      FileProblems.Listed problems) {
    this.tables = tables;
    this.present = present;
    this.concertPitch = concertPitch;
    this.by = by;
    this.corpus = corpus;
    this.students = students;
    this.norms = norms;
    this.contrasts = contrasts;
    this.ruleNorms = ruleNorms;
    this.files = files;
    this.problems = problems;
  }

  /**
   * Reads what the pages need.
   *
   * @param manifest of the study: what tables it has, and by what it groups solos; pages leave out
   *     what other tables would tell
   * @param concertPitch true to have every line as it sounds, false as its player reads it
   * @throws phrasecensus.tables.InputException if a table cannot be read
   */
  public static StudyRows read(TableSource tables, Manifest manifest, boolean concertPitch) {
    Set<String> present = manifest.tables().keySet();
    List<Grouping> by = manifest.by().stream().map(Grouping::parse).toList();
    Map<String, List<SoloFacts>> byStudent = new TreeMap<>();
    for (TableRow row : tables.tableRows(SolosRow.TABLE, SolosRow.ROLE.is(Role.STUDENT))) {
      SoloFacts facts = SoloFacts.of(row, by);
      String name = facts.student() == null ? "" : facts.student();
      byStudent.computeIfAbsent(name, any -> new ArrayList<>()).add(facts);
    }
    Map<Group, Map<String, CorpusNorm>> norms = new LinkedHashMap<>();
    for (NormsRow row : tables.rows(NormsRow.TABLE)) {
      CorpusNorm norm = CorpusNorm.of(row);
      norms.computeIfAbsent(norm.group(), any -> new LinkedHashMap<>()).put(norm.statistic(), norm);
    }
    List<Contrast> contrasts =
        present.contains(ContrastsRow.TABLE.name())
            ? tables.rows(ContrastsRow.TABLE).stream().map(Contrast::of).toList()
            : List.of();
    List<RuleNorm> ruleNorms =
        present.contains(SensitivityRow.TABLE.name())
            ? tables.rows(SensitivityRow.TABLE, SensitivityRow.GROUP_BY.is(Group.ALL.by())).stream()
                .map(RuleNorm::of)
                .toList()
            : List.of();
    return new StudyRows(
        tables,
        Set.copyOf(present),
        concertPitch,
        by,
        CorpusCounts.of(tables, by, MOST_VALUES),
        students(tables, present, byStudent, concertPitch),
        norms,
        contrasts,
        ruleNorms,
        InputFiles.of(tables, MOST_LISTED),
        FileProblems.worst(tables, MOST_LISTED));
  }

  /** What phrases end on, context by context; empty in a study without the table. */
  public List<ContextEnd> contextEnds() {
    return present.contains(ContextNormsRow.TABLE.name())
        ? tables.rows(ContextNormsRow.TABLE).stream().map(ContextEnd::of).toList()
        : List.of();
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
        by(tables, present, DeparturesRow.TABLE, DeparturesRow::student, Comparison::of);
    Map<String, Map<String, Value>> values = new HashMap<>();
    for (SoloStatisticsRow row :
        tables.rows(SoloStatisticsRow.TABLE, SoloStatisticsRow.ROLE.is(Role.STUDENT))) {
      values
          .computeIfAbsent(row.soloId(), any -> new HashMap<>())
          .put(row.statistic(), new Value(row.value(), row.n()));
    }
    Map<String, Map<Integer, Map<String, Value>>> phraseValues = new HashMap<>();
    for (PhraseStatisticsRow row :
        tables.rows(PhraseStatisticsRow.TABLE, PhraseStatisticsRow.ROLE.is(Role.STUDENT))) {
      phraseValues
          .computeIfAbsent(row.soloId(), any -> new HashMap<>())
          .computeIfAbsent(row.phraseIndex(), any -> new HashMap<>())
          .put(row.statistic(), new Value(row.value(), row.n()));
    }
    Map<String, List<Neighbour>> neighbours =
        by(tables, present, NeighboursRow.TABLE, NeighboursRow::soloId, Neighbour::of);
    Map<String, List<Exemplar>> exemplars =
        by(tables, present, ExemplarsRow.TABLE, ExemplarsRow::student, Exemplar::of);
    Map<String, List<Mixture>> mixtures =
        by(tables, present, MixturesRow.TABLE, MixturesRow::student, Mixture::of);
    Map<String, List<Answer>> answers =
        by(tables, present, AnswersRow.TABLE, AnswersRow::student, Answer::of);
    Map<String, List<Trend>> trends =
        by(tables, present, TrendsRow.TABLE, TrendsRow::student, Trend::of);
    Map<String, SoloLine> lines = lines(tables, NotesRow.ROLE.is(Role.STUDENT), concertPitch);
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
                  mixtures.getOrDefault(name, List.of()),
                  answers.getOrDefault(name, List.of())));
        });
    return List.copyOf(students);
  }

  private static <R extends Row, T> Map<String, List<T>> by(
      TableSource tables,
      Set<String> present,
      Table<R> table,
      Function<R, String> key,
      Function<R, T> reading) {
    Map<String, List<T>> found = new HashMap<>();
    if (present.contains(table.name())) {
      for (R row : tables.rows(table)) {
        found.computeIfAbsent(key.apply(row), any -> new ArrayList<>()).add(reading.apply(row));
      }
    }
    return found;
  }

  private static <T> Map<String, List<T>> bySolo(
      TableSource tables,
      Table<?> table,
      TextColumn<String> soloId,
      Among among,
      List<Columns> columns,
      Function<TableRow, T> reading) {
    List<Columns> asked = new ArrayList<>(columns);
    asked.add(soloId);
    Map<String, List<T>> found = new HashMap<>();
    try (Stream<TableRow> rows = tables.stream(table, asked, among)) {
      rows.forEach(
          row ->
              found
                  .computeIfAbsent(row.get(soloId), any -> new ArrayList<>())
                  .add(reading.apply(row)));
    }
    return found;
  }

  /**
   * What some solos sound like, only the columns read that pictures need.
   *
   * @param among by role or solo, columns that all of these tables have
   */
  private static Map<String, SoloLine> lines(
      TableSource tables, Among among, boolean concertPitch) {
    Map<String, List<SoloLine.BarSpan>> bars =
        bySolo(
            tables,
            BarsRow.TABLE,
            BarsRow.SOLO_ID,
            among,
            SoloLine.BarSpan.COLUMNS,
            SoloLine.BarSpan::of);
    Map<String, List<SoloLine.ChordSpan>> chords =
        bySolo(
            tables,
            ChordsRow.TABLE,
            ChordsRow.SOLO_ID,
            among,
            SoloLine.ChordSpan.COLUMNS,
            SoloLine.ChordSpan::of);
    Map<String, List<SoloLine.Tone>> notes =
        bySolo(
            tables,
            NotesRow.TABLE,
            NotesRow.SOLO_ID,
            among,
            SoloLine.Tone.COLUMNS,
            SoloLine.Tone::of);
    Map<String, List<SoloLine.PhraseSpan>> phrases =
        bySolo(
            tables,
            PhrasesRow.TABLE,
            PhrasesRow.SOLO_ID,
            among,
            SoloLine.PhraseSpan.COLUMNS,
            SoloLine.PhraseSpan::of);
    Map<String, List<SoloLine.LandingMark>> landings =
        bySolo(
            tables,
            LandingsRow.TABLE,
            LandingsRow.SOLO_ID,
            among,
            SoloLine.LandingMark.COLUMNS,
            SoloLine.LandingMark::of);
    Map<String, List<SoloLine.GraceTone>> graceNotes =
        bySolo(
            tables,
            GraceNotesRow.TABLE,
            GraceNotesRow.SOLO_ID,
            among,
            SoloLine.GraceTone.COLUMNS,
            SoloLine.GraceTone::of);
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

  /** Recurring figures with their places; without any in a study that has no table of them. */
  public Figures figures() {
    // Once, and not by every page that asks.
    synchronized (tables) {
      if (figures == null) {
        figures = present.contains(FiguresRow.TABLE.name()) ? Figures.of(tables) : Figures.NONE;
      }
      return figures;
    }
  }

  /** The students, by name. */
  public List<Student> students() {
    return students;
  }

  /** True when the study has a table. */
  public boolean has(String table) {
    return present.contains(table);
  }

  /** How many input files there were, read or not, and which have something to be told. */
  public InputFiles files() {
    return files;
  }

  /**
   * What could not be taken as it stands, each kind once a file, the {@link #MOST_LISTED} worst.
   */
  public FileProblems.Listed problems() {
    return problems;
  }

  /** Pairs of groups, statistic by statistic; empty in a study without the table. */
  public List<Contrast> contrasts() {
    return contrasts;
  }

  /**
   * Norms of the whole corpus under every phrase rule; empty where the study asked for one rule.
   */
  public List<RuleNorm> ruleNorms() {
    return ruleNorms;
  }

  /** Lengths of the phrases in a metre of a group of corpus solos. */
  public PhraseLengthCounts corpusPhraseLengths(Group group) {
    return corpus.lengths(group);
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

  /**
   * Names solos of the corpus that lie evenly in the order of the table, or all where there are no
   * more.
   *
   * @param most how many of each group
   */
  public Set<String> spread(Map<Group, Integer> most) {
    return corpus.spread(tables, by, most);
  }

  /** True when a corpus solo belongs to a group. */
  public boolean isIn(Group group, String soloId) {
    return corpusSolo(soloId).filter(solo -> solo.belongsTo(group)).isPresent();
  }

  /** How many corpus solos a group has. */
  public int solosIn(Group group) {
    return corpus.solos(group);
  }

  /** Different named players in a group of the corpus. */
  public int players(Group group) {
    return corpus.players(group);
  }

  /**
   * The defined values of a statistic over the corpus solos of a group, ascending; empty when the
   * corpus has more solos than {@link #MOST_VALUES} and the group has a norm.
   */
  public List<Double> corpusValues(Group group, String statistic) {
    if (!isListed(group, statistic)) {
      return List.of();
    }
    // Once, and not by every page that asks.
    synchronized (tables) {
      if (corpusValues == null) {
        corpusValues = readCorpusValues();
      }
    }
    return corpusValues.getOrDefault(group, Map.of()).getOrDefault(statistic, List.of());
  }

  private boolean isListed(Group group, String statistic) {
    return corpus.solos(Group.ALL) <= MOST_VALUES
        || norm(group, statistic).map(CorpusNorm::n).orElse(0) <= MOST_OF_A_LARGE_CORPUS;
  }

  /** Of a large corpus only those of groups without a norm: a handful a group and statistic. */
  private Map<Group, Map<String, List<Double>>> readCorpusValues() {
    Map<Group, Map<String, List<Double>>> values = new HashMap<>();
    Map<String, List<Group>> bySolo = corpus.smallGroups();
    try (Stream<TableRow> rows =
        tables.stream(
            SoloStatisticsRow.TABLE,
            List.of(
                SoloStatisticsRow.SOLO_ID, SoloStatisticsRow.STATISTIC, SoloStatisticsRow.VALUE),
            corpus.solos(Group.ALL) <= MOST_VALUES
                ? SoloStatisticsRow.ROLE.is(Role.CORPUS)
                : SoloStatisticsRow.SOLO_ID.isOneOf(bySolo.keySet()))) {
      rows.filter(row -> row.get(SoloStatisticsRow.VALUE) != null)
          .forEach(
              row -> {
                String statistic = row.get(SoloStatisticsRow.STATISTIC);
                for (Group group :
                    bySolo.getOrDefault(row.get(SoloStatisticsRow.SOLO_ID), List.of())) {
                  if (isListed(group, statistic)) {
                    values
                        .computeIfAbsent(group, any -> new HashMap<>())
                        .computeIfAbsent(statistic, any -> new ArrayList<>())
                        .add(row.get(SoloStatisticsRow.VALUE));
                  }
                }
              });
    }
    values.values().forEach(ofGroup -> ofGroup.values().forEach(Collections::sort));
    return values;
  }

  /** A corpus solo. */
  public Optional<SoloFacts> corpusSolo(String soloId) {
    if (!corpusFacts.containsKey(soloId)) {
      prepareSolos(Set.of(soloId));
    }
    return Optional.ofNullable(corpusFacts.get(soloId));
  }

  /** Reads what is known of some corpus solos, in one pass over the table. */
  public void prepareSolos(Collection<String> soloIds) {
    Set<String> missing = new TreeSet<>(soloIds);
    missing.removeAll(corpusFacts.keySet());
    if (!missing.isEmpty()) {
      for (TableRow row : tables.tableRows(SolosRow.TABLE, SolosRow.SOLO_ID.isOneOf(missing))) {
        if (row.get(SolosRow.ROLE) == Role.CORPUS) {
          corpusFacts.put(row.get(SolosRow.SOLO_ID), SoloFacts.of(row, by));
        }
      }
    }
  }

  /** Reads the lines of corpus solos that a page will draw, in one pass over the tables. */
  public void prepareLines(Collection<String> soloIds) {
    Set<String> missing = new TreeSet<>(soloIds);
    missing.removeAll(corpusLines.keySet());
    prepareSolos(missing);
    missing.retainAll(corpusFacts.keySet());
    if (!missing.isEmpty()) {
      List<Callable<Map<String, SoloLine>>> reading = new ArrayList<>();
      for (Set<String> some : neighbouring(missing)) {
        reading.add(() -> lines(tables, NotesRow.SOLO_ID.isOneOf(some), concertPitch));
      }
      AtOnce.made(reading).forEach(corpusLines::putAll);
    }
  }

  /** The line of a corpus solo; without anything when the corpus has no such solo. */
  public SoloLine corpusLine(String soloId) {
    if (!corpusLines.containsKey(soloId)) {
      prepareLines(Set.of(soloId));
    }
    return corpusLines.getOrDefault(soloId, SoloLine.NONE);
  }

  /** What a paper would say of the study, a paragraph each. */
  public List<String> methods(Manifest manifest, StatisticsCatalogue catalogue) {
    return MethodsText.paragraphs(manifest, tables, catalogue);
  }

  /** A value of a phrase of the corpus. */
  public record PhraseValue(String soloId, int phrase, String statistic, double value, int n) {}

  /** The defined values of some statistics in the phrases of some corpus solos. */
  public List<PhraseValue> phraseValues(Set<String> soloIds, Set<String> statistics) {
    List<Callable<List<PhraseValue>>> reading = new ArrayList<>();
    for (Set<String> some : neighbouring(soloIds)) {
      reading.add(() -> readPhraseValues(some, statistics));
    }
    return AtOnce.made(reading).stream().flatMap(List::stream).toList();
  }

  private List<PhraseValue> readPhraseValues(Set<String> soloIds, Set<String> statistics) {
    try (Stream<TableRow> rows =
        tables.stream(
            PhraseStatisticsRow.TABLE,
            List.of(
                PhraseStatisticsRow.PHRASE_INDEX, PhraseStatisticsRow.VALUE, PhraseStatisticsRow.N),
            PhraseStatisticsRow.SOLO_ID.isOneOf(soloIds),
            PhraseStatisticsRow.STATISTIC.isOneOf(statistics))) {
      return rows.filter(row -> row.get(PhraseStatisticsRow.VALUE) != null)
          .map(
              row ->
                  new PhraseValue(
                      row.get(PhraseStatisticsRow.SOLO_ID),
                      row.get(PhraseStatisticsRow.PHRASE_INDEX),
                      row.get(PhraseStatisticsRow.STATISTIC),
                      row.get(PhraseStatisticsRow.VALUE),
                      row.get(PhraseStatisticsRow.N)))
          .toList();
    }
  }

  /** Solos in their order, in as many stretches as can be read at a time. */
  private static List<Set<String>> neighbouring(Set<String> soloIds) {
    List<String> ordered = soloIds.stream().sorted().toList();
    int stretches =
        Math.min(
            Runtime.getRuntime().availableProcessors(), ordered.size() / LEAST_SOLOS_AT_ONCE + 1);
    List<Set<String>> parted = new ArrayList<>();
    for (int i = 0; i < stretches; i++) {
      parted.add(
          Set.copyOf(
              ordered.subList(
                  i * ordered.size() / stretches, (i + 1) * ordered.size() / stretches)));
    }
    return parted;
  }
}
