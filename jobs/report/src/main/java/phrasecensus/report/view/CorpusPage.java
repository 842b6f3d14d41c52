package phrasecensus.report.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import phrasecensus.report.ReportSettings;
import phrasecensus.report.picture.GroupStrips;
import phrasecensus.report.picture.PhraseLengths;
import phrasecensus.report.picture.Picture;
import phrasecensus.report.picture.StatisticStrip;
import phrasecensus.report.picture.ValueMix;
import phrasecensus.report.rows.CorpusNorm;
import phrasecensus.report.rows.FileOutcome;
import phrasecensus.report.rows.Group;
import phrasecensus.report.rows.Problem;
import phrasecensus.report.rows.StudyRows;
import phrasecensus.report.rows.Value;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.Numbers;
import phrasecensus.report.wording.Wording;
import phrasecensus.tables.Manifest;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;

/**
 * The page of the corpus.
 *
 * @param title of the study
 * @param description of the study; may be empty
 * @param counts what was read
 * @param students links to the students' pages
 * @param questions what is usual, headline by headline
 * @param facets every compared statistic
 * @param mix note values by count; null without values
 * @param timeMix note values by time; null without values
 * @param lengths lengths of all corpus phrases; null without any
 * @param rejected files that were not read; null when all were
 * @param rejectedNote how many are listed of how many
 * @param problems things that could not be taken as they stand; null without any
 * @param problemsNote how many are listed of how many
 * @param settings every setting with its value
 * @param definitions each statistic with its definition, a table a facet
 * @param tables the tables with their digests
 * @param program name and version
 * @param inputs how many input files the manifest lists
 */
public record CorpusPage(
    Shell shell,
    String title,
    String description,
    List<String> counts,
    List<Shell.Link> students,
    List<Question> questions,
    List<Facet> facets,
    Mix mix,
    Mix timeMix,
    Picture lengths,
    Grid rejected,
    String rejectedNote,
    Grid problems,
    String problemsNote,
    Grid settings,
    List<Grid> definitions,
    Grid tables,
    String program,
    String inputs) {

  /** More groups of one column than this are not drawn, so that the page keeps its size. */
  private static final int MOST_GROUPS = 12;

  private static final int MOST_FILES = 100;
  private static final int MOST_PROBLEMS = 100;
  private static final List<String> FACETS = List.of("harmony", "movement", "phrasing", "line");

  /**
   * A facet.
   *
   * @param overall its statistics over the whole corpus
   * @param byGroup the same by the groups of a column, a table a column
   */
  public record Facet(String heading, Grid overall, List<Grid> byGroup) {}

  /** Makes the page. */
  static CorpusPage of(
      StudyRows rows,
      Manifest manifest,
      StatisticsCatalogue catalogue,
      ReportSettings settings,
      Names names,
      Numbers numbers,
      Shell shell) {
    return new Maker(rows, manifest, catalogue, settings, names, numbers).page(shell);
  }

  /** Holds what every part of the page needs. */
  private static final class Maker {
    private final StudyRows rows;
    private final Manifest manifest;
    private final StatisticsCatalogue catalogue;
    private final ReportSettings settings;
    private final Names names;
    private final Numbers numbers;
    private final Wording wording;

    Maker(
        StudyRows rows,
        Manifest manifest,
        StatisticsCatalogue catalogue,
        ReportSettings settings,
        Names names,
        Numbers numbers) {
      this.rows = rows;
      this.manifest = manifest;
      this.catalogue = catalogue;
      this.settings = settings;
      this.names = names;
      this.numbers = numbers;
      this.wording = new Wording(numbers);
    }

    CorpusPage page(Shell shell) {
      Grid rejected = rejected();
      Grid problems = problems();
      return new CorpusPage(
          shell,
          FileText.printable(manifest.study().title()),
          FileText.printable(manifest.study().description()),
          counts(),
          shell.pages().stream().filter(link -> link.target().startsWith("student-")).toList(),
          questions(),
          facets(),
          mix(Mix.BY_COUNT, "mix", "Note values by count"),
          mix(Mix.BY_TIME, "time-mix", "Note values by sounding time"),
          rows.corpusPhraseBars().isEmpty()
              ? null
              : new PhraseLengths(numbers)
                  .picture(
                      "lengths",
                      "Phrase lengths of the corpus in bars",
                      rows.corpusPhraseBars(),
                      List.of()),
          rejected,
          listed(rejected, rows.rejected().size(), "rejected file"),
          problems,
          listed(problems, rows.problems().size(), "problem"),
          settingsTable(),
          definitions(),
          tables(),
          FileText.printable(manifest.program()),
          wording.counted(manifest.inputs().size(), "input file"));
    }

    private List<String> counts() {
      List<String> counts = new ArrayList<>();
      counts.add(wording.counted(rows.corpus().size(), "corpus solo"));
      counts.add(wording.counted(rows.players(), "named player"));
      counts.add(wording.counted(rows.corpusPhraseBars().size(), "corpus phrase") + " in a metre");
      int solos = rows.students().stream().mapToInt(s -> s.solos().size()).sum();
      if (solos > 0) {
        counts.add(
            wording.counted(rows.students().size(), "student")
                + " with "
                + wording.counted(solos, "solo"));
      }
      counts.add(
          wording.counted(rows.files(), "file")
              + ", "
              + numbers.count(rows.rejected().size())
              + " rejected");
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
      return group.isWholeCorpus() ? "whole corpus" : Wording.group(group);
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
          Grid.of(Wording.capitalised(definition.name()) + " by group")
              .words("Group")
              .numbers(
                  "Solos",
                  "Without a value",
                  "Players",
                  "Median",
                  "25 to 75 %",
                  "10 to 90 %",
                  "5 to 95 %")
              .words("Note");
      for (Group group : groups()) {
        rows.norm(group, definition.key())
            .ifPresent(
                norm -> {
                  List<Double> values = values(group, definition.key());
                  entries.add(new GroupStrips.Entry(name(group), norm, values));
                  grid.row(row(definition, norm, name(group), values));
                });
      }
      String sentence =
          wording.norm(
              definition,
              rows.norm(Group.ALL, definition.key()).orElse(null),
              rows.norm(Group.ALL, definition.key()).map(CorpusNorm::n).orElse(0) < 6
                  ? values(Group.ALL, definition.key())
                  : List.of());
      Picture picture =
          entries.isEmpty()
              ? null
              : new GroupStrips(numbers).picture("n-" + definition.key(), definition, entries);
      return new Question.Figure(
          definition.name(), definition.meaning(), List.of(sentence), picture, grid.build());
    }

    private List<Double> values(Group group, String statistic) {
      return rows.corpus().size() > StatisticStrip.MOST_TICKS && rows.solosIn(group) > 5
          ? List.of()
          : rows.corpusValues(group, statistic);
    }

    private List<String> row(
        StatisticDefinition definition, CorpusNorm norm, String name, List<Double> values) {
      String note =
          CorpusNorm.Shown.LIST == norm.shown() || norm.shown() == CorpusNorm.Shown.MEDIAN
              ? wording.norm(definition, norm, values)
              : Wording.caution(norm);
      return List.of(
          name,
          numbers.count(norm.n()),
          numbers.count(norm.undefined()),
          numbers.count(norm.players()),
          norm.p50() == null ? "\u2013" : numbers.withUnit(definition, norm.p50()),
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
            Grid.of(Wording.facet(facet) + ": the whole corpus")
                .words("Statistic")
                .numbers("Solos", "Median", "25 to 75 %", "10 to 90 %", "5 to 95 %")
                .words("What it means to a player");
        for (StatisticDefinition definition : definitions) {
          rows.norm(Group.ALL, definition.key())
              .ifPresent(
                  norm ->
                      overall.row(
                          Wording.capitalised(definition.name()),
                          numbers.count(norm.n()),
                          norm.p50() == null ? "\u2013" : numbers.withUnit(definition, norm.p50()),
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
        facets.add(new Facet(Wording.facet(facet), overall.build(), byGroup));
      }
      return facets;
    }

    private Grid byGroup(String facet, String by, List<StatisticDefinition> definitions) {
      List<Group> made = rows.groups(by);
      List<Group> shown = made.subList(0, Math.min(MOST_GROUPS, made.size()));
      Grid.Builder grid =
          Grid.of(
                  Wording.facet(facet)
                      + " by "
                      + FileText.withoutDirection(by)
                      + ": median, middle half, n"
                      + (shown.size() < made.size()
                          ? " (the first "
                              + shown.size()
                              + " of "
                              + numbers.count(made.size())
                              + " groups; the table norms has all)"
                          : ""))
              .words("Statistic");
      for (Group group : shown) {
        grid.numbers(FileText.withoutDirection(group.value()));
      }
      for (StatisticDefinition definition : definitions) {
        List<String> cells = new ArrayList<>(List.of(Wording.capitalised(definition.name())));
        for (Group group : shown) {
          cells.add(
              rows.norm(group, definition.key())
                  .map(norm -> cell(definition, group, norm))
                  .orElse("no value (n\u00a00)"));
        }
        grid.row(cells);
      }
      return grid.build();
    }

    private String cell(StatisticDefinition definition, Group group, CorpusNorm norm) {
      String n = " (n\u00a0" + numbers.count(norm.n()) + ")";
      if (norm.n() == 0) {
        return "no value" + n;
      }
      if (norm.hasBand()) {
        return numbers.bare(definition, norm.p50())
            + "; "
            + numbers.range(definition, norm.p25(), norm.p75())
            + n;
      }
      if (norm.p50() != null) {
        return numbers.withUnit(definition, norm.p50()) + n;
      }
      List<Double> values = rows.corpusValues(group, definition.key());
      return (values.isEmpty()
              ? numbers.range(definition, norm.minimum(), norm.maximum())
              : "too few: "
                  + Wording.joined(
                      values.stream().map(value -> numbers.bare(definition, value)).toList()))
          + n;
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
                "n\u00a0" + wording.counted(solos, "solo"),
                key ->
                    rows.norm(group, key)
                        .filter(norm -> norm.mean() != null)
                        .map(norm -> new Value(norm.mean(), norm.n()))
                        .orElse(new Value(null, 0)))
            .ifPresent(entries::add);
      }
      return Mix.of(
          id, title, title + ": average share over the solos of a group", entries, numbers);
    }

    private Grid rejected() {
      if (rows.rejected().isEmpty()) {
        return null;
      }
      Grid.Builder grid = Grid.of("Files that were not read").words("File", "Role", "Reason");
      for (FileOutcome file : rows.rejected()) {
        if (grid.size() == MOST_FILES) {
          break;
        }
        grid.row(
            names.file(file.role(), file.file(), null),
            file.role(),
            names.quoted(file.role(), file.reason()));
      }
      return grid.build();
    }

    private Grid problems() {
      if (rows.problems().isEmpty()) {
        return null;
      }
      Grid.Builder grid =
          Grid.of("Things in files that could not be taken as they stand")
              .words("File", "Part", "Bar", "Kind", "Found", "Done");
      for (Problem problem : rows.problems()) {
        if (grid.size() == MOST_PROBLEMS) {
          break;
        }
        grid.row(
            names.file(problem.role(), problem.file(), problem.soloId()),
            names.quoted(problem.role(), problem.part()),
            names.quoted(problem.role(), problem.bar()),
            problem.code(),
            names.quoted(problem.role(), problem.found()),
            problem.done());
      }
      return grid.build();
    }

    private String listed(Grid grid, int all, String noun) {
      if (grid == null) {
        return "";
      }
      return grid.rows().size() == all
          ? wording.counted(all, noun) + "."
          : "The first "
              + numbers.count(grid.rows().size())
              + " of "
              + wording.counted(all, noun)
              + "; the tables files and problems have all.";
    }

    private Grid settingsTable() {
      Grid.Builder grid = Grid.of("Settings of the study").words("Setting", "Value");
      for (Map.Entry<String, String> setting :
          new java.util.TreeMap<>(manifest.settings()).entrySet()) {
        grid.row(FileText.printable(setting.getKey()), FileText.printable(setting.getValue()));
      }
      grid.row(
          "norms grouped by",
          manifest.by().isEmpty() ? "whole corpus only" : String.join(", ", manifest.by()));
      grid.row("version of the statistics catalogue", String.valueOf(manifest.catalogueVersion()));
      return grid.build();
    }

    private List<Grid> definitions() {
      List<Grid> grids = new ArrayList<>();
      Set<String> facets = new TreeSet<>(java.util.Comparator.comparingInt(FACETS::indexOf));
      catalogue.all().forEach(definition -> facets.add(definition.facet()));
      for (String facet : facets) {
        Grid.Builder grid =
            Grid.of(Wording.facet(facet) + ": definitions")
                .words(
                    "Statistic",
                    "Formula",
                    "Unit",
                    "Value of a solo",
                    "Undefined when",
                    "n counts",
                    "Source");
        for (StatisticDefinition definition : catalogue.all()) {
          if (definition.facet().equals(facet)) {
            grid.row(
                Wording.capitalised(definition.name()),
                definition.formula(),
                definition.unit(),
                definition.aggregation(),
                definition.undefined(),
                definition.n(),
                definition.source());
          }
        }
        grids.add(grid.build());
      }
      return grids;
    }

    private Grid tables() {
      Grid.Builder grid =
          Grid.of("Tables of the study with the SHA-256 digest of their rows")
              .words("Table")
              .numbers("Version", "Rows")
              .words("Digest");
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
