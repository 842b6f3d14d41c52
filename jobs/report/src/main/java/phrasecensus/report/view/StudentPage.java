package phrasecensus.report.view;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import phrasecensus.report.exercise.StudentExercises;
import phrasecensus.report.picture.PairedBars;
import phrasecensus.report.picture.PhraseLengths;
import phrasecensus.report.picture.Picture;
import phrasecensus.report.picture.Progress;
import phrasecensus.report.picture.ValueMix;
import phrasecensus.report.rows.Comparison;
import phrasecensus.report.rows.CorpusNorm;
import phrasecensus.report.rows.Group;
import phrasecensus.report.rows.Mixture;
import phrasecensus.report.rows.Neighbour;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.rows.Student;
import phrasecensus.report.rows.StudentSolo;
import phrasecensus.report.rows.StudyRows;
import phrasecensus.report.rows.Trend;
import phrasecensus.report.rows.Value;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.Numbers;
import phrasecensus.report.wording.Text;
import phrasecensus.report.wording.Wording;
import phrasecensus.tables.MixDefinition;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.row.FiguresRow;

/**
 * The page of one student.
 *
 * @param name as shown
 * @param study title of the study
 * @param introduction what is compared with what
 * @param beside what is compared with, in a sentence: {@code the corpus} or {@code the group}
 * @param reason why it is that, and what was left out of it; may be empty
 * @param answers how the newest solo stands to the aims; null where nothing is told of them
 * @param questions the headline questions, each with its answer
 * @param numbers the headline values of every solo; null without solos
 * @param departures where the solos stand apart
 * @param practice what to try next, at most three
 * @param exercises made from a phrase of the newest solo; null without any
 * @param figures what the student comes back to; null in a study without the table
 * @param mix note values by count; null without values
 * @param timeMix note values by time; null without values
 * @param mixWords how far the note values by count lie from the average; empty when not known
 * @param timeMixWords the same by time
 * @param mixes distances of every kind of mix; null in a study without the table
 * @param lengths lengths of all phrases; null without phrases in a metre
 * @param shares where phrases start and end, and on what
 * @param progress what moved over the dates
 * @param progressNote why there is nothing in {@code progress}; empty when there is something
 * @param moved what else moved; null without anything
 * @param near the nearest corpus solo to each solo; null in a study without the table
 * @param solos links to the pages of the solos
 * @param excerpts false when notes are left out
 */
public record StudentPage(
    Shell shell,
    String name,
    String study,
    String introduction,
    String beside,
    String reason,
    StudentAnswers answers,
    List<Question> questions,
    Grid numbers,
    StudentDepartures departures,
    List<Suggestion> practice,
    OwnExercises exercises,
    List<ShownFigure> figures,
    Mix mix,
    Mix timeMix,
    String mixWords,
    String timeMixWords,
    Grid mixes,
    Picture lengths,
    List<Shares> shares,
    List<ProgressItem> progress,
    String progressNote,
    Grid moved,
    Grid near,
    List<SoloLink> solos,
    boolean excerpts) {

  /** Shares that tell what makes most of a mix's distance. */
  private static final int MOST_PARTS = 2;

  private static final List<String> FACETS = List.of("harmony", "movement", "phrasing", "line");

  /**
   * Something to try next.
   *
   * @param target place of the departure that it comes from
   * @param why that departure in words
   * @param material what to start from, a sentence each
   * @param own a phrase of the student that does it already; null without one
   */
  public record Suggestion(
      String title,
      String target,
      String why,
      String task,
      List<String> material,
      String tempo,
      String sign,
      Excerpt own) {
    public Suggestion {
      material = List.copyOf(material);
    }
  }

  /**
   * What is made from one of the student's phrases.
   *
   * @param from which phrase
   * @param parts the exercises, in notation and sound
   * @param left what was not made, and why; may be empty
   */
  public record OwnExercises(String from, List<SheetPage.Part> parts, String left) {
    public OwnExercises {
      parts = List.copyOf(parts);
    }
  }

  /**
   * Shares of a whole, student beside corpus.
   *
   * @param none what to say without a picture
   * @param picture null without values, like {@code numbers}
   */
  public record Shares(String heading, String none, Picture picture, Grid numbers) {}

  /** A statistic over the dates. */
  public record ProgressItem(String name, String sentence, Picture picture) {}

  /**
   * A link to the page of a solo.
   *
   * @param facts instrument, metre, tempo, centre, counts
   */
  public record SoloLink(String target, String heading, String facts) {}

  /** Makes the page of a student. */
  static StudentPage of(PageSource source, Student student, Shell shell) {
    return new Maker(source, student).page(shell);
  }

  /** Holds what every part of the page needs. */
  private static final class Maker {
    private final PageSource source;
    private final StudyRows rows;
    private final Student student;
    private final StatisticsCatalogue catalogue;
    private final Numbers numbers;
    private final Wording wording;
    private final StudentFigures figures;
    private final Group group;
    private final List<String> labels;

    Maker(PageSource source, Student student) {
      this.source = source;
      this.rows = source.rows();
      this.student = student;
      this.catalogue = source.catalogue();
      this.numbers = source.numbers();
      this.wording = source.wording();
      this.figures = new StudentFigures(source, student);
      this.group = figures.group();
      this.labels = source.names().labels(student);
    }

    StudentPage page(Shell shell) {
      StudentAnswers answers = StudentAnswers.of(source, student);
      StudentDepartures departures = StudentDepartures.of(source, student, figures);
      boolean settled = answers == null || answers.settled();
      return new StudentPage(
          shell,
          source.names().student(student),
          FileText.printable(source.manifest().study().title()),
          introduction(),
          figures.beside(),
          figures.reason(),
          answers,
          questions(),
          headlineNumbers(),
          departures,
          settled ? new Practice(source, student).suggestions(departures) : List.of(),
          exercises(),
          rows.has(FiguresRow.TABLE.name()) ? ShownFigure.ofStudent(source, student) : null,
          mix(Mix.BY_COUNT, "mix", Text.of("student.values.count.title")),
          mix(Mix.BY_TIME, "time-mix", Text.of("student.values.time.title")),
          mixWords("note_values"),
          mixWords("note_value_times"),
          mixes(),
          lengths(),
          shares(),
          progress(),
          progressNote(),
          moved(),
          near(),
          solos(),
          source.settings().excerpts());
    }

    /** Of the newest solo; without notes on the page there is nothing to make them from. */
    private OwnExercises exercises() {
      if (!source.settings().excerpts() || student.solos().isEmpty()) {
        return null;
      }
      StudentExercises made =
          StudentExercises.best(student.solos().get(student.solos().size() - 1)).orElse(null);
      if (made == null) {
        return null;
      }
      SoloLine.PhraseSpan phrase = made.phrase();
      return made.few()
          .map(
              sheet ->
                  new OwnExercises(
                      phrase.firstBar().equals(phrase.lastBar())
                          ? Text.of("exercise.from.bar", FileText.printable(phrase.firstBar()))
                          : Text.of(
                              "exercise.from",
                              FileText.printable(phrase.firstBar()),
                              FileText.printable(phrase.lastBar())),
                      SheetPage.parts(sheet, "exercise-", "exercise", made.player()),
                      made.leftOut()))
          .orElse(null);
    }

    private String introduction() {
      String solos = wording.counted(student.solos().size(), "solo");
      String phrases = wording.counted(student.phrases(), "phrase");
      return rows.solosIn(group) == 0
          ? Text.of("student.lead.alone", solos, phrases)
          : Text.of("student.lead", solos, phrases, figures.size());
    }

    private List<StatisticDefinition> headlines() {
      return catalogue.all().stream().filter(StatisticDefinition::headline).toList();
    }

    private CorpusNorm norm(String statistic) {
      return figures.norm(statistic);
    }

    private List<Question> questions() {
      List<Question> questions = new ArrayList<>();
      for (String facet : FACETS) {
        List<StatisticDefinition> definitions =
            headlines().stream().filter(d -> d.facet().equals(facet)).toList();
        if (definitions.isEmpty()) {
          continue;
        }
        List<Wording.Standing> standings = new ArrayList<>();
        List<Question.Figure> drawn = new ArrayList<>();
        for (StatisticDefinition definition : definitions) {
          Optional<Comparison> pooled = student.pooled(group, definition.key());
          CorpusNorm norm = norm(definition.key());
          Optional<Wording.Standing> standing =
              pooled.map(comparison -> new Wording.Standing(definition, comparison, norm));
          List<String> sentences = new ArrayList<>();
          standing.ifPresent(standings::add);
          standing.map(wording::standing).ifPresent(sentences::add);
          sentences.add(
              standing
                  .filter(known -> known.comparison().band().isKnown())
                  .map(wording::norm)
                  .orElseGet(
                      () ->
                          wording.norm(
                              definition, norm, rows.corpusValues(group, definition.key()))));
          if (definition.key().equals("centre_scale_share")) {
            chanceLevel().ifPresent(sentences::add);
          }
          drawn.add(
              new Question.Figure(
                  standing
                      .map(Wording.Standing::told)
                      .map(Wording.Standing::definition)
                      .orElse(definition)
                      .name(),
                  definition.meaning(),
                  sentences,
                  standing
                      .map(known -> figures.strip("q-" + definition.key(), known))
                      .orElseGet(() -> figures.strip("q-" + definition.key(), definition, norm)),
                  null,
                  List.of(),
                  List.of()));
        }
        questions.add(
            new Question(
                "question-" + facet,
                Wording.question(facet),
                Wording.questionExplained(facet),
                wording.answer(standings),
                drawn));
      }
      return questions;
    }

    /**
     * How often a note picked at random would lie in the scale: without it the share says little.
     */
    private Optional<String> chanceLevel() {
      List<Double> levels =
          student.solos().stream()
              .map(solo -> solo.value("centre_scale_chance").value())
              .filter(Objects::nonNull)
              .sorted()
              .toList();
      if (levels.isEmpty()) {
        return Optional.empty();
      }
      double middle = (levels.get((levels.size() - 1) / 2) + levels.get(levels.size() / 2)) / 2;
      return Optional.of(wording.scaleChance(middle, levels.size()));
    }

    private Grid headlineNumbers() {
      if (student.solos().isEmpty()) {
        return null;
      }
      Grid.Builder grid = Grid.of(Text.of("table.headlines")).words(Text.of("table.solo"));
      for (StatisticDefinition definition : headlines()) {
        grid.numbers(Wording.capitalised(definition.name()));
      }
      for (int i = 0; i < student.solos().size(); i++) {
        List<String> cells = new ArrayList<>(List.of(source.names().solo(student, i)));
        for (StatisticDefinition definition : headlines()) {
          cells.add(wording.cell(definition, student.solos().get(i).value(definition.key())));
        }
        grid.row(cells);
      }
      if (student.solos().size() > 1) {
        List<String> cells = new ArrayList<>(List.of(Text.of("table.median")));
        for (StatisticDefinition definition : headlines()) {
          cells.add(
              student
                  .pooled(group, definition.key())
                  .map(c -> wording.cell(definition, new Value(c.value(), c.solos())))
                  .orElse(Text.of("value.dash")));
        }
        grid.row(cells);
      }
      List<String> corpus =
          new ArrayList<>(List.of(Text.of("table.corpus-band", figures.beside())));
      for (StatisticDefinition definition : headlines()) {
        corpus.add(wording.bandWithN(definition, norm(definition.key())));
      }
      return grid.row(corpus).build();
    }

    private Mix mix(String prefix, String id, String title) {
      List<ValueMix.Entry> entries = new ArrayList<>();
      int corpusSolos =
          catalogue.all().stream()
              .filter(d -> d.key().startsWith(prefix))
              .map(d -> norm(d.key()))
              .filter(Objects::nonNull)
              .mapToInt(CorpusNorm::n)
              .max()
              .orElse(0);
      Mix.entry(
              catalogue,
              prefix,
              average(),
              wording.n(corpusSolos, "solo"),
              key -> {
                CorpusNorm norm = norm(key);
                return norm == null || norm.mean() == null
                    ? Value.UNDEFINED
                    : new Value(norm.mean(), norm.n());
              })
          .ifPresent(entries::add);
      for (int i = 0; i < student.solos().size(); i++) {
        StudentSolo solo = student.solos().get(i);
        Mix.entry(
                catalogue,
                prefix,
                labels.get(i),
                wording.n(solo.facts().notes(), "note"),
                solo::value)
            .ifPresent(entries::add);
      }
      return Mix.of(id, title, Text.of("student.values.table", title), entries, numbers);
    }

    private String mixWords(String key) {
      List<Mixture> parts = student.mixture(group, key);
      if (parts.isEmpty()) {
        return "";
      }
      Mixture most = parts.get(0);
      return Text.of(
              "student.mix",
              numbers.decimal(most.distance(), 2),
              average(),
              wording.n(most.solos(), "solo"),
              most.usualDistance() == null
                  ? Text.of("student.mix.few")
                  : Text.of(
                      "student.mix.usual",
                      figures.beside(),
                      numbers.decimal(most.usualDistance(), 2)))
          + " "
          + Text.of("student.mix.most", parts(parts));
    }

    /** What makes most of a distance, in words. */
    private String parts(List<Mixture> parts) {
      return Wording.joined(
          parts.stream()
              .limit(MOST_PARTS)
              .map(
                  part ->
                      Text.of(
                          "student.mix.part",
                          catalogue
                              .named(part.part())
                              .map(StatisticDefinition::name)
                              .orElse(part.part()),
                          numbers.percent(part.studentShare()),
                          numbers.percent(part.groupShare())))
              .toList());
    }

    private Grid mixes() {
      String[] columns = Text.of("student.mixes.columns").split("\\|");
      Grid.Builder grid =
          Grid.of(Text.of("student.mixes.table", average()))
              .words(columns[0])
              .numbers(columns[1], columns[2], columns[3])
              .words(columns[4]);
      for (MixDefinition mix : catalogue.mixes()) {
        List<Mixture> parts = student.mixture(group, mix.key());
        if (!parts.isEmpty()) {
          Mixture most = parts.get(0);
          grid.row(
              Wording.capitalised(mix.name()),
              numbers.decimal(most.distance(), 2),
              most.usualDistance() == null
                  ? Text.of("value.dash")
                  : numbers.decimal(most.usualDistance(), 2),
              numbers.count(most.solos()),
              parts(parts));
        }
      }
      return grid.size() == 0 ? null : grid.build();
    }

    private String average() {
      return Text.of("student.average", figures.beside());
    }

    private Picture lengths() {
      List<PhraseLengths.Entry> entries = new ArrayList<>();
      boolean any = false;
      for (int i = 0; i < student.solos().size(); i++) {
        List<Double> lengths =
            student.solos().get(i).line().phrases().stream()
                .map(SoloLine.PhraseSpan::lengthBars)
                .filter(Objects::nonNull)
                .toList();
        any |= !lengths.isEmpty();
        entries.add(new PhraseLengths.Entry(labels.get(i), lengths));
      }
      return any
          ? new PhraseLengths(numbers)
              .picture(
                  "lengths",
                  Text.of("student.lengths.title"),
                  figures.beside(),
                  rows.corpusPhraseLengths(group),
                  entries)
          : null;
    }

    private List<Shares> shares() {
      List<Shares> shares = new ArrayList<>();
      shares.add(beats("starts", "phrase_starts_beat_"));
      shares.add(beats("ends", "phrase_ends_beat_"));
      List<PairedBars.Entry> degrees = new ArrayList<>();
      int n = 0;
      int solos = 0;
      for (String degree : List.of("root", "third", "fifth", "seventh", "other")) {
        String key = "phrase_ends_on_" + degree;
        Value own = pooledShare(key);
        n = Math.max(n, own.n());
        solos = Math.max(solos, corpusSolos(key));
        degrees.add(
            new PairedBars.Entry(
                Text.of("student.degree." + degree), corpusMean(key), own.value()));
      }
      shares.add(shares("degrees", degrees, solos, n));
      shares.add(form());
      return shares;
    }

    /** Shares of their own: they do not add up. */
    private Shares form() {
      List<PairedBars.Entry> places = new ArrayList<>();
      int n = 0;
      int solos = 0;
      String[][] parts = {
        {"group", "phrase_starts_four_bar_group"},
        {"start", "phrase_starts_section"},
        {"section", "phrase_crosses_section"},
        {"chorus", "phrase_crosses_chorus"}
      };
      for (String[] part : parts) {
        Value own = pooledShare(part[1]);
        n = Math.max(n, own.n());
        solos = Math.max(solos, corpusSolos(part[1]));
        places.add(
            new PairedBars.Entry(
                Text.of("student.form." + part[0]), corpusMean(part[1]), own.value()));
      }
      return shares("form", places, solos, n);
    }

    private Shares beats(String name, String prefix) {
      List<PairedBars.Entry> beats = new ArrayList<>();
      int n = 0;
      int solos = 0;
      double corpus = 0;
      double own = 0;
      for (int beat = 1; beat <= 4; beat++) {
        Value value = pooledShare(prefix + beat);
        Double mean = corpusMean(prefix + beat);
        n = Math.max(n, value.n());
        solos = Math.max(solos, corpusSolos(prefix + beat));
        corpus += mean == null ? 0 : mean;
        own += value.isDefined() ? value.value() : 0;
        beats.add(new PairedBars.Entry(Text.of("student.beat", beat), mean, value.value()));
      }
      if (n > 0 && (own < 0.995 || corpus < 0.995)) {
        beats.add(
            new PairedBars.Entry(
                Text.of("student.beat.other"),
                solos == 0 ? null : Math.max(0, 1 - corpus),
                Math.max(0, 1 - own)));
      }
      return shares(name, beats, solos, n);
    }

    private Shares shares(String name, List<PairedBars.Entry> entries, int solos, int n) {
      String heading = Text.of("student." + name);
      String none = Text.of("student." + name + ".none");
      if (n == 0) {
        return new Shares(heading, none, null, null);
      }
      String corpusName =
          Text.of("student.shares.corpus", average(), wording.counted(solos, "solo"));
      String studentName = Text.of("student.shares.student", wording.counted(n, "phrase"));
      String title = Text.of("student." + name + ".title");
      String[] columns = Text.of("student.shares.table").split("\\|");
      Grid.Builder grid =
          Grid.of(title).words(columns[0]).numbers(Wording.capitalised(average()), columns[1]);
      for (PairedBars.Entry entry : entries) {
        grid.row(
            Wording.capitalised(entry.name()),
            wording.share(entry.corpus()),
            wording.share(entry.student()));
      }
      return new Shares(
          heading,
          none,
          new PairedBars(numbers).picture(name, title, corpusName, studentName, entries),
          grid.build());
    }

    /** A share over all phrases of the student's solos together. */
    private Value pooledShare(String key) {
      double sum = 0;
      int n = 0;
      for (StudentSolo solo : student.solos()) {
        Value value = solo.value(key);
        if (value.isDefined()) {
          sum += value.value() * value.n();
          n += value.n();
        }
      }
      return n == 0 ? Value.UNDEFINED : new Value(sum / n, n);
    }

    private Double corpusMean(String key) {
      CorpusNorm norm = norm(key);
      return norm == null ? null : norm.mean();
    }

    private int corpusSolos(String key) {
      CorpusNorm norm = norm(key);
      return norm == null ? 0 : norm.n();
    }

    private List<ProgressItem> progress() {
      List<ProgressItem> items = new ArrayList<>();
      for (StatisticDefinition definition : headlines()) {
        List<Progress.Entry> entries = new ArrayList<>();
        for (StudentSolo solo : student.solos()) {
          Optional<LocalDate> day = Numbers.day(solo.facts().date());
          Value value = solo.value(definition.key());
          if (day.isPresent() && value.isDefined()) {
            entries.add(new Progress.Entry(day.get(), value.value(), value.n()));
          }
        }
        if (entries.size() >= 3
            && !entries.get(0).day().equals(entries.get(entries.size() - 1).day())) {
          items.add(
              new ProgressItem(
                  Wording.capitalised(definition.name()),
                  wording.progress(
                      definition,
                      student.trend(group, definition.key()).orElse(null),
                      entries.get(0).value(),
                      entries.get(entries.size() - 1).value(),
                      entries.size()),
                  new Progress(numbers)
                      .picture(
                          "p-" + definition.key(), definition, norm(definition.key()), entries)));
        }
      }
      return items;
    }

    private String progressNote() {
      long dated =
          student.solos().stream()
              .filter(solo -> Numbers.day(solo.facts().date()).isPresent())
              .count();
      return dated >= 3 ? "" : Text.of("student.dates.few", numbers.count(dated));
    }

    private Grid moved() {
      Grid.Builder grid =
          Grid.of(Text.of("student.dates.others.table", figures.beside()))
              .words(Text.of("table.statistic"), Text.of("table.movement"))
              .numbers(Text.of("table.change"));
      for (StatisticDefinition definition : catalogue.all()) {
        Trend trend = student.trend(group, definition.key()).orElse(null);
        if (trend != null && trend.isMovement() && !definition.headline()) {
          grid.row(
              Wording.capitalised(definition.name()),
              wording.movement(trend),
              wording.difference(definition, trend.change()));
        }
      }
      return grid.size() == 0 ? null : grid.build();
    }

    private Grid near() {
      if (student.solos().stream().allMatch(solo -> solo.neighbours().isEmpty())) {
        return null;
      }
      String[] columns = Text.of("student.near.columns").split("\\|");
      Grid.Builder grid =
          Grid.of(Text.of("student.near.table"))
              .words(columns[0], columns[1])
              .numbers(columns[2], columns[3])
              .words(columns[4]);
      for (int i = 0; i < student.solos().size(); i++) {
        List<Neighbour> near = student.solos().get(i).neighbours();
        if (!near.isEmpty()) {
          List<String> cells = new ArrayList<>(List.of(source.names().solo(student, i)));
          cells.addAll(
              student.solos().get(i).isLikeAny()
                  ? figures.neighbour(near.get(0))
                  : List.of(
                      Text.of("student.near.none"),
                      source.numbers().decimal(near.get(0).distance(), 2),
                      source.numbers().count(near.get(0).shared()),
                      Text.of("value.dash")));
          grid.row(cells);
        }
      }
      return grid.build();
    }

    private List<SoloLink> solos() {
      List<SoloLink> links = new ArrayList<>();
      for (int i = 0; i < student.solos().size(); i++) {
        links.add(
            new SoloLink(
                source.names().page(student, i),
                source.names().solo(student, i),
                figures.facts(student.solos().get(i))));
      }
      return links;
    }
  }
}
