package phrasecensus.report.view;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import phrasecensus.report.picture.GroupStrips;
import phrasecensus.report.picture.PhraseLengths;
import phrasecensus.report.picture.Picture;
import phrasecensus.report.picture.ValueMix;
import phrasecensus.report.rows.Contrast;
import phrasecensus.report.rows.CorpusNorm;
import phrasecensus.report.rows.FileOutcome;
import phrasecensus.report.rows.FileProblems;
import phrasecensus.report.rows.Group;
import phrasecensus.report.rows.Interval;
import phrasecensus.report.rows.SameSolo;
import phrasecensus.report.rows.StudyRows;
import phrasecensus.report.rows.Twin;
import phrasecensus.report.rows.Value;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.Numbers;
import phrasecensus.report.wording.Text;
import phrasecensus.report.wording.Wording;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.MetadataChoice;
import phrasecensus.tables.ProblemKinds;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.StudySettings;
import phrasecensus.tables.row.NormShown;

/**
 * The page of the corpus.
 *
 * @param title of the study
 * @param description of the study; may be empty
 * @param counts what was read
 * @param students links to the students' pages
 * @param questions what is usual, headline by headline
 * @param pairs groups side by side; empty in a study without the table or without groups
 * @param pairsNote how many pairs are told of how many; empty when all are
 * @param quietPairs pairs between which nothing stands out; null without any
 * @param facets every compared statistic
 * @param rules how the norms move under other phrase rules
 * @param mix note values by count; null without values
 * @param timeMix note values by time; null without values
 * @param contexts what phrases end on, chord by chord; null where too few do
 * @param sharedFigures what solos share, told without notation; empty without any
 * @param lengths lengths of all corpus phrases; null without any
 * @param rejected files that were not read; null when all were
 * @param rejectedNote how many are listed of how many
 * @param same corpus files that hold the same solo as another one; null without any
 * @param twins files that are in both roles; null without any
 * @param problems things that could not be taken as they stand; null without any
 * @param problemsNote how they are listed, and how many of how many
 * @param settings every setting with its value
 * @param definitions each statistic with its definition, a table a facet
 * @param tables the tables with their digests
 * @param methods what a paper would say of the study
 * @param citation what to name when these figures are used
 */
public record CorpusPage(
    Shell shell,
    String title,
    String description,
    List<String> counts,
    List<Shell.Link> students,
    List<Question> questions,
    List<Pair> pairs,
    String pairsNote,
    Grid quietPairs,
    List<Facet> facets,
    RuleTables rules,
    Mix mix,
    Mix timeMix,
    Grid contexts,
    List<ShownFigure> sharedFigures,
    Picture lengths,
    Grid rejected,
    String rejectedNote,
    Grid same,
    Grid twins,
    Grid problems,
    String problemsNote,
    Grid settings,
    List<Grid> definitions,
    Grid tables,
    List<String> methods,
    String citation) {

  /** More groups of one column than this are not drawn, so that the page keeps its size. */
  private static final int MOST_GROUPS = 12;

  /** Differences of a pair of groups that are told in words; the table has all. */
  private static final int MOST_DIFFERENCES = 6;

  /**
   * Pairs of groups that are told one by one, those with most clear differences; the table has all.
   */
  private static final int MOST_PAIRS = 24;

  /** Pairs without a clear difference that are listed. */
  private static final int MOST_QUIET_PAIRS = 60;

  private static final List<String> FACETS = List.of("harmony", "movement", "phrasing", "line");

  /**
   * A facet.
   *
   * @param overall its statistics over the whole corpus
   * @param byGroup the same by the groups of a column, a table a column
   */
  public record Facet(
      String heading,
      Grid overall,
      List<Grid> byGroup,
      String examplesHeading,
      List<Example> examples) {}

  /** A statistic with a phrase that shows it as it is usual. */
  public record Example(String name, Excerpt excerpt) {}

  /**
   * Two groups side by side.
   *
   * @param size solos and players of both
   * @param note what to know before trusting it; empty when there is nothing to say
   * @param summary how many figures stand out
   * @param tests figures tested
   * @param clear how many figures stand out
   * @param differences the clearest ones; null when none stands out
   */
  public record Pair(
      String heading,
      String size,
      String note,
      String summary,
      String tests,
      int clear,
      Grid differences) {}

  /** True where the page has a section: without a corpus most of them have nothing to say. */
  public boolean shows(String section) {
    return shell.sections().stream().anyMatch(link -> link.target().equals(section));
  }

  /** File name of the page of figures. */
  public String figuresFile() {
    return Pages.FIGURES_FILE;
  }

  /** File name of the page of the class. */
  public String classFile() {
    return Pages.CLASS_FILE;
  }

  /** Makes the page. */
  static CorpusPage of(PageSource source, Shell shell) {
    return new Maker(source).page(shell);
  }

  /** Holds what every part of the page needs. */
  private static final class Maker {
    private final StudyRows rows;
    private final Manifest manifest;
    private final StatisticsCatalogue catalogue;
    private final Names names;
    private final Numbers numbers;
    private final Wording wording;
    private final Examples examples;
    private final PageSource source;

    Maker(PageSource source) {
      this.source = source;
      this.rows = source.rows();
      this.manifest = source.manifest();
      this.catalogue = source.catalogue();
      this.names = source.names();
      this.numbers = source.numbers();
      this.wording = source.wording();
      this.examples = new Examples(source);
    }

    CorpusPage page(Shell shell) {
      Grid rejected = rejected();
      Grid problems = problems();
      List<Pair> pairs = pairs();
      return new CorpusPage(
          shell,
          FileText.printable(manifest.study().title()),
          FileText.printable(manifest.study().description()),
          counts(),
          shell.pages().stream().filter(link -> link.target().startsWith("student-")).toList(),
          questions(),
          loud(pairs),
          pairsNote(pairs),
          quiet(pairs),
          facets(),
          RuleTables.of(source),
          mix(Mix.BY_COUNT, "mix", Text.of("student.values.count.title")),
          mix(Mix.BY_TIME, "time-mix", Text.of("student.values.time.title")),
          ContextEnds.of(rows.contextEnds(), numbers),
          ShownFigure.told(source),
          rows.corpusPhraseLengths(Group.ALL).all() == 0
              ? null
              : new PhraseLengths(numbers)
                  .picture(
                      "lengths",
                      Text.of("corpus.lengths.title"),
                      Text.of("the.corpus"),
                      rows.corpusPhraseLengths(Group.ALL),
                      List.of()),
          rejected,
          listed(rejected, rows.files().rejected(), "rejected file"),
          same(),
          twins(),
          problems,
          problemsNote(problems),
          settingsTable(),
          definitions(),
          tables(),
          rows.methods(manifest, catalogue).stream().map(FileText::printable).toList(),
          Text.of(
              "corpus.cite.how",
              FileText.printable(manifest.program()),
              wording.counted(manifest.inputs().size(), "input file"),
              manifest.tables().containsKey("norms")
                  ? manifest.tables().get("norms").digest()
                  : Text.of("value.none")));
    }

    private List<String> counts() {
      List<String> counts = new ArrayList<>();
      if (rows.solosIn(Group.ALL) > 0) {
        counts.add(wording.counted(rows.solosIn(Group.ALL), "corpus solo"));
        counts.add(wording.counted(rows.players(Group.ALL), "named player"));
        counts.add(
            Text.of(
                "corpus.count.phrases",
                wording.counted(rows.corpusPhraseLengths(Group.ALL).all(), "corpus phrase")));
      }
      int solos = rows.students().stream().mapToInt(s -> s.solos().size()).sum();
      if (solos > 0) {
        counts.add(
            Text.of(
                "corpus.count.students",
                wording.counted(rows.students().size(), "student"),
                wording.counted(solos, "solo")));
      }
      counts.add(
          rows.files().rejected() == 0
              ? Text.of("corpus.count.files.all", wording.counted(rows.files().all(), "file"))
              : Text.of(
                  "corpus.count.files.some",
                  wording.counted(rows.files().all(), "file"),
                  numbers.count(rows.files().rejected())));
      if (rows.files().lineless() > 0) {
        counts.add(
            Text.of(
                "corpus.count.files.lineless", wording.counted(rows.files().lineless(), "file")));
      }
      return counts;
    }

    /** The whole corpus, then the groups of each column, as far as they have a row. */
    private List<Group> groups() {
      List<Group> groups = new ArrayList<>(List.of(Group.ALL));
      for (String by : rows.groupings()) {
        List<Group> made = rows.groups(by);
        groups.addAll(made.subList(0, Math.min(MOST_GROUPS, made.size())));
      }
      return groups;
    }

    private String name(Group group) {
      return group.isWholeCorpus() ? Text.of("corpus.whole") : Wording.group(group);
    }

    private List<Question> questions() {
      List<Question> questions = new ArrayList<>();
      for (String facet : FACETS) {
        List<Question.Figure> figures = new ArrayList<>();
        for (StatisticDefinition definition : catalogue.all()) {
          if (definition.headline() && definition.facet().equals(facet)) {
            figures.add(figure(definition));
          }
        }
        if (!figures.isEmpty()) {
          questions.add(
              new Question(
                  "question-" + facet,
                  Wording.question(facet),
                  Wording.questionExplained(facet),
                  null,
                  figures));
        }
      }
      return questions;
    }

    private Question.Figure figure(StatisticDefinition definition) {
      List<GroupStrips.Entry> entries = new ArrayList<>();
      Grid.Builder grid =
          Grid.of(Text.of("corpus.usual.table", Wording.capitalised(definition.name())))
              .words(Text.of("table.group"))
              .numbers(Text.of("corpus.usual.columns").split("\\|"))
              .words(Text.of("corpus.usual.note"));
      for (Group group : groups()) {
        rows.norm(group, definition.key())
            .ifPresent(
                norm -> {
                  List<Double> values = values(group, definition.key());
                  entries.add(new GroupStrips.Entry(name(group), norm, values));
                  grid.row(row(definition, norm, name(group), values));
                });
      }
      List<String> sentences = new ArrayList<>();
      sentences.add(
          wording.norm(
              definition,
              rows.norm(Group.ALL, definition.key()).orElse(null),
              rows.norm(Group.ALL, definition.key()).map(CorpusNorm::n).orElse(0) < 6
                  ? values(Group.ALL, definition.key())
                  : List.of()));
      rows.norm(Group.ALL, definition.key())
          .map(norm -> wording.medianInterval(definition, norm))
          .filter(sentence -> !sentence.isEmpty())
          .ifPresent(sentences::add);
      Picture picture =
          entries.isEmpty()
              ? null
              : new GroupStrips(numbers).picture("n-" + definition.key(), definition, entries);
      List<Question.OfGroup> byGroup =
          examples.byGroup(definition).stream()
              .map(of -> new Question.OfGroup(name(of.group()), of.excerpts()))
              .toList();
      return new Question.Figure(
          definition.name(),
          definition.meaning(),
          sentences,
          picture,
          grid.build(),
          examples.of(definition),
          byGroup);
    }

    private List<Double> values(Group group, String statistic) {
      return rows.corpusValues(group, statistic);
    }

    private List<String> row(
        StatisticDefinition definition, CorpusNorm norm, String name, List<Double> values) {
      String note =
          NormShown.LIST == norm.shown() || norm.shown() == NormShown.MEDIAN
              ? wording.norm(definition, norm, values)
              : Wording.caution(norm);
      return List.of(
          name,
          numbers.count(norm.n()),
          numbers.count(norm.undefined()),
          numbers.count(norm.players()),
          norm.p50() == null ? "\u2013" : numbers.withUnit(definition, norm.p50()),
          wording.stretch(definition, norm.median().low(), norm.median().high()),
          wording.stretch(definition, norm.p25(), norm.p75()),
          wording.stretch(definition, norm.p10(), norm.p90()),
          wording.stretch(definition, norm.p05(), norm.p95()),
          note);
    }

    private List<Facet> facets() {
      List<Facet> facets = new ArrayList<>();
      for (String facet : FACETS) {
        List<StatisticDefinition> definitions =
            catalogue.all().stream()
                .filter(d -> d.facet().equals(facet) && (d.compared() || d.headline()))
                .toList();
        Grid.Builder overall =
            Grid.of(Text.of("corpus.facets.table", Wording.facet(facet)))
                .words(Text.of("table.statistic"))
                .numbers(Text.of("corpus.facets.columns").split("\\|"))
                .words(Text.of("corpus.facets.meaning"));
        List<Example> shown = new ArrayList<>();
        for (StatisticDefinition definition : definitions) {
          rows.norm(Group.ALL, definition.key())
              .ifPresent(
                  norm ->
                      overall.row(
                          Wording.capitalised(definition.name()),
                          numbers.count(norm.n()),
                          norm.p50() == null
                              ? Text.of("value.dash")
                              : numbers.withUnit(definition, norm.p50()),
                          wording.stretch(definition, norm.median().low(), norm.median().high()),
                          wording.stretch(definition, norm.p25(), norm.p75()),
                          wording.stretch(definition, norm.p10(), norm.p90()),
                          wording.stretch(definition, norm.p05(), norm.p95()),
                          definition.meaning()));
        }
        if (overall.size() == 0) {
          continue;
        }
        List<Grid> byGroup = new ArrayList<>();
        for (String by : rows.groupings()) {
          byGroup.add(byGroup(facet, by, definitions));
        }
        for (StatisticDefinition definition : definitions) {
          if (!definition.headline()) {
            for (Excerpt excerpt : examples.of(definition)) {
              shown.add(new Example(Wording.capitalised(definition.name()), excerpt));
            }
          }
        }
        facets.add(
            new Facet(
                Wording.facet(facet),
                overall.build(),
                byGroup,
                Text.of("corpus.facets.examples", Wording.facet(facet)),
                shown));
      }
      return facets;
    }

    private Grid byGroup(String facet, String by, List<StatisticDefinition> definitions) {
      List<Group> made = rows.groups(by);
      List<Group> shown = made.subList(0, Math.min(MOST_GROUPS, made.size()));
      Grid.Builder grid =
          Grid.of(
                  Text.of(
                      "corpus.facets.group",
                      Wording.facet(facet),
                      FileText.withoutDirection(by),
                      shown.size() < made.size()
                          ? Text.of(
                              "corpus.facets.first",
                              numbers.count(shown.size()),
                              numbers.count(made.size()))
                          : ""))
              .words(Text.of("table.statistic"));
      for (Group group : shown) {
        grid.numbers(FileText.withoutDirection(group.value()));
      }
      for (StatisticDefinition definition : definitions) {
        List<String> cells = new ArrayList<>(List.of(Wording.capitalised(definition.name())));
        for (Group group : shown) {
          cells.add(
              rows.norm(group, definition.key())
                  .map(norm -> cell(definition, group, norm))
                  .orElse(wording.cell(definition, Value.UNDEFINED)));
        }
        grid.row(cells);
      }
      return grid.build();
    }

    private String cell(StatisticDefinition definition, Group group, CorpusNorm norm) {
      return wording.normCell(
          definition,
          norm,
          norm.hasBand() ? List.of() : rows.corpusValues(group, definition.key()));
    }

    private List<Pair> pairs() {
      Map<String, List<Contrast>> byPair = new LinkedHashMap<>();
      for (Contrast contrast : rows.contrasts()) {
        byPair
            .computeIfAbsent(
                contrast.by() + "\n" + contrast.first() + "\n" + contrast.second(),
                any -> new ArrayList<>())
            .add(contrast);
      }
      return byPair.values().stream().map(this::pair).toList();
    }

    private static List<Pair> loud(List<Pair> pairs) {
      List<Pair> loud = pairs.stream().filter(pair -> pair.differences() != null).toList();
      return loud.size() <= MOST_PAIRS
          ? loud
          : loud.stream()
              .sorted(Comparator.comparingInt(pair -> -pair.clear()))
              .limit(MOST_PAIRS)
              .toList();
    }

    private String pairsNote(List<Pair> pairs) {
      long loud = pairs.stream().filter(pair -> pair.differences() != null).count();
      return loud <= MOST_PAIRS && pairs.size() - loud <= MOST_QUIET_PAIRS
          ? ""
          : Text.of(
              "corpus.beside.first",
              numbers.count(Math.min(MOST_PAIRS, loud)),
              numbers.count(loud),
              numbers.count(Math.min(MOST_QUIET_PAIRS, pairs.size() - loud)),
              numbers.count(pairs.size() - loud));
    }

    private static Grid quiet(List<Pair> pairs) {
      String[] columns = Text.of("corpus.beside.quiet.columns").split("\\|");
      Grid.Builder grid =
          Grid.of(Text.of("corpus.beside.quiet")).words(columns[0], columns[1]).numbers(columns[2]);
      for (Pair pair : pairs) {
        if (pair.differences() == null && grid.size() < MOST_QUIET_PAIRS) {
          grid.row(pair.heading(), pair.size(), pair.tests());
        }
      }
      return grid.size() == 0 ? null : grid.build();
    }

    private Pair pair(List<Contrast> contrasts) {
      Contrast any = contrasts.get(0);
      String first = FileText.withoutDirection(any.first());
      String second = FileText.withoutDirection(any.second());
      int tests =
          contrasts.stream()
              .filter(c -> c.tests() != null)
              .mapToInt(Contrast::tests)
              .max()
              .orElse(0);
      List<Contrast> clear =
          contrasts.stream()
              .filter(c -> c.pAdjusted() != null && c.pAdjusted() <= 0.05 && c.effect() != null)
              .sorted(
                  Comparator.comparingDouble((Contrast c) -> -Math.abs(c.effect()))
                      .thenComparing(Contrast::statistic))
              .toList();
      String[] columns = Text.of("corpus.beside.columns").split("\\|");
      Grid.Builder grid =
          Grid.of(Text.of("corpus.beside.table", first, second))
              .words(columns[0], columns[1])
              .numbers(columns[2], columns[3], columns[4], columns[5]);
      for (Contrast contrast : clear) {
        Optional<StatisticDefinition> definition = catalogue.named(contrast.statistic());
        if (definition.isPresent() && grid.size() < MOST_DIFFERENCES) {
          boolean higher = contrast.effect() > 0;
          boolean turned = !higher && definition.get().complement() != null;
          StatisticDefinition told = turned ? definition.get().turned() : definition.get();
          Interval difference = turned ? contrast.difference().negated() : contrast.difference();
          grid.row(
              Wording.capitalised(told.name()),
              Text.of(
                  "corpus.beside.words",
                  Wording.capitalised(higher || turned ? told.higher() : told.lower()),
                  first),
              wording.difference(told, difference.value()),
              wording.differences(told, difference),
              wording.pairs(contrast.delta(), higher),
              wording.chanceFinds(contrast.pAdjusted()));
        }
      }
      return new Pair(
          Text.of("corpus.beside.pair", FileText.withoutDirection(any.by()), first, second),
          Text.of(
              "corpus.beside.size",
              numbers.count(contrasts.stream().mapToInt(Contrast::firstSolos).max().orElse(0)),
              numbers.count(contrasts.stream().mapToInt(Contrast::secondSolos).max().orElse(0)),
              numbers.count(contrasts.stream().mapToInt(Contrast::firstPlayers).max().orElse(0)),
              numbers.count(contrasts.stream().mapToInt(Contrast::secondPlayers).max().orElse(0))),
          contrasts.stream().anyMatch(c -> c.unnamed() > 0) ? Text.of("corpus.beside.unnamed") : "",
          Text.of("corpus.beside.more", numbers.count(clear.size()), numbers.count(tests)),
          numbers.count(tests),
          clear.size(),
          grid.size() == 0 ? null : grid.build());
    }

    private Mix mix(String prefix, String id, String title) {
      List<ValueMix.Entry> entries = new ArrayList<>();
      for (Group group : groups()) {
        int solos =
            catalogue.all().stream()
                .filter(d -> d.key().startsWith(prefix))
                .mapToInt(d -> rows.norm(group, d.key()).map(CorpusNorm::n).orElse(0))
                .max()
                .orElse(0);
        Mix.entry(
                catalogue,
                prefix,
                name(group),
                wording.n(solos, "solo"),
                key ->
                    rows.norm(group, key)
                        .filter(norm -> norm.mean() != null)
                        .map(norm -> new Value(norm.mean(), norm.n()))
                        .orElse(Value.UNDEFINED))
            .ifPresent(entries::add);
      }
      return Mix.of(id, title, Text.of("corpus.values.table", title), entries, numbers);
    }

    private Grid rejected() {
      if (rows.files().rejected() == 0) {
        return null;
      }
      Grid.Builder grid =
          Grid.of(Text.of("corpus.files.table"))
              .words(Text.of("corpus.files.columns").split("\\|"));
      for (FileOutcome file : rows.files().firstRejected()) {
        grid.row(
            names.file(file.role(), file.file(), null),
            file.role(),
            names.quoted(file.role(), file.reason()));
      }
      return grid.build();
    }

    private Grid twins() {
      Grid.Builder grid =
          Grid.of(Text.of("corpus.twins.table"))
              .words(Text.of("corpus.twins.columns").split("\\|"));
      for (Twin twin : rows.files().twins()) {
        grid.row(
            names.corpusTwin(twin.corpusFile()),
            names.file("student", twin.studentFile(), twin.studentSoloId()));
      }
      return grid.size() == 0 ? null : grid.build();
    }

    private Grid same() {
      Grid.Builder grid =
          Grid.of(Text.of("corpus.same.table")).words(Text.of("corpus.same.columns").split("\\|"));
      for (SameSolo same : rows.files().same()) {
        grid.row(
            names.file("corpus", same.file(), null),
            names.file("corpus", same.earlier(), null),
            Text.of(same.sameBytes() ? "corpus.same.bytes" : "corpus.same.line"));
      }
      return grid.size() == 0 ? null : grid.build();
    }

    private Grid problems() {
      if (rows.problems().worst().isEmpty()) {
        return null;
      }
      String[] columns = Text.of("corpus.problems.columns").split("\\|");
      Grid.Builder grid =
          Grid.of(Text.of("corpus.problems.table"))
              .words(columns[0], columns[1], columns[2])
              .numbers(columns[3])
              .words(columns[4], columns[5], columns[6]);
      for (FileProblems problem : rows.problems().worst()) {
        ProblemKinds.Kind kind = problem.kind();
        String bars = String.join(", ", kind.bars()) + (kind.moreBars() ? " …" : "");
        grid.row(
            names.file(problem.role(), problem.file(), problem.soloId()),
            Text.of("corpus.problems.severity." + Math.max(1, Math.min(4, kind.severity()))),
            kind.code(),
            numbers.count(kind.count()),
            names.quoted(problem.role(), bars),
            names.quoted(problem.role(), kind.found()),
            kind.done());
      }
      return grid.build();
    }

    private String problemsNote(Grid grid) {
      if (grid == null) {
        return "";
      }
      return grid.rows().size() == rows.problems().all()
          ? Text.of("corpus.problems.all")
          : Text.of(
              "corpus.problems.first",
              numbers.count(grid.rows().size()),
              numbers.count(rows.problems().all()));
    }

    private String listed(Grid grid, long all, String noun) {
      if (grid == null) {
        return "";
      }
      return grid.rows().size() == all
          ? Text.of("corpus.listed.all", wording.counted(all, noun))
          : Text.of(
              "corpus.listed.first", numbers.count(grid.rows().size()), wording.counted(all, noun));
    }

    private Grid settingsTable() {
      Grid.Builder grid =
          Grid.of(Text.of("corpus.settings"))
              .words(Text.of("corpus.settings.columns").split("\\|"));
      for (Map.Entry<String, String> setting :
          new java.util.TreeMap<>(manifest.settings()).entrySet()) {
        grid.row(
            FileText.printable(setting.getKey()), setting(setting.getKey(), setting.getValue()));
      }
      grid.row(
          Text.of("corpus.settings.by"),
          manifest.by().isEmpty()
              ? Text.of("corpus.settings.whole")
              : String.join(", ", manifest.by()));
      grid.row(Text.of("corpus.settings.catalogue"), String.valueOf(manifest.catalogueVersion()));
      return grid.build();
    }

    /** A setting as the page shows it; nobody who has a code is named in one. */
    private String setting(String key, String value) {
      if (source.settings().pseudonyms() && StudySettings.NAMING_STUDENTS.contains(key)) {
        return Text.of("corpus.settings.named");
      }
      return FileText.printable(
          key.equals(StudySettings.ONLY) || key.equals(StudySettings.STUDENT_ONLY)
              ? MetadataChoice.inWords(value)
              : value);
    }

    private List<Grid> definitions() {
      List<Grid> grids = new ArrayList<>();
      Set<String> facets = new TreeSet<>(java.util.Comparator.comparingInt(FACETS::indexOf));
      catalogue.all().forEach(definition -> facets.add(definition.facet()));
      for (String facet : facets) {
        Grid.Builder grid =
            Grid.of(Text.of("corpus.definitions.table", Wording.facet(facet)))
                .words(Text.of("corpus.definitions.columns").split("\\|"));
        for (StatisticDefinition definition : catalogue.all()) {
          if (definition.facet().equals(facet)) {
            grid.row(
                Wording.capitalised(definition.name()),
                definition.formula(),
                definition.unit(),
                definition.aggregation(),
                definition.undefined(),
                Wording.counts(definition),
                definition.source(),
                definition.key());
          }
        }
        grids.add(grid.build());
      }
      return grids;
    }

    private Grid tables() {
      String[] columns = Text.of("corpus.tables.columns").split("\\|");
      Grid.Builder grid =
          Grid.of(Text.of("corpus.tables.table"))
              .words(columns[0])
              .numbers(columns[1], columns[2])
              .words(columns[3]);
      manifest
          .tables()
          .forEach(
              (name, table) ->
                  grid.row(
                      name,
                      String.valueOf(table.version()),
                      numbers.count(table.rows()),
                      table.digest()));
      return grid.build();
    }
  }
}
