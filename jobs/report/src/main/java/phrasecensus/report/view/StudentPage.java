package phrasecensus.report.view;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import phrasecensus.report.ReportSettings;
import phrasecensus.report.engraving.Engraver;
import phrasecensus.report.engraving.Engraving;
import phrasecensus.report.picture.PhraseLengths;
import phrasecensus.report.picture.Picture;
import phrasecensus.report.picture.Progress;
import phrasecensus.report.picture.StatisticStrip;
import phrasecensus.report.picture.Timeline;
import phrasecensus.report.picture.ValueMix;
import phrasecensus.report.rows.Comparison;
import phrasecensus.report.rows.CorpusNorm;
import phrasecensus.report.rows.Group;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.rows.Student;
import phrasecensus.report.rows.StudentSolo;
import phrasecensus.report.rows.StudyRows;
import phrasecensus.report.rows.Value;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.MusicText;
import phrasecensus.report.wording.Numbers;
import phrasecensus.report.wording.Wording;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;

/**
 * The page of one student.
 *
 * @param name as shown
 * @param study title of the study
 * @param introduction what is compared with what
 * @param questions the headline questions, each with its answer
 * @param numbers the headline values of every solo; null without solos
 * @param departures what lies farthest outside the middle band, farthest first
 * @param latest the same for the latest solo; null when there is but one
 * @param everything every compared statistic, a table a facet
 * @param otherGroups headline values beside the other groups; null when there are none
 * @param mix note values by count; null without values
 * @param timeMix note values by time; null without values
 * @param lengths lengths of all phrases; null without phrases in a metre
 * @param progress what moved over the dates
 * @param progressNote why there is nothing in {@code progress}; empty when there is something
 * @param solos each solo along its time
 * @param excerpts false when notes are left out
 */
public record StudentPage(
    Shell shell,
    String name,
    String study,
    String introduction,
    List<Question> questions,
    Grid numbers,
    List<DepartureItem> departures,
    Grid latest,
    List<Grid> everything,
    Grid otherGroups,
    Mix mix,
    Mix timeMix,
    Picture lengths,
    List<ProgressItem> progress,
    String progressNote,
    List<SoloItem> solos,
    boolean excerpts) {

  /** The most departures that get a picture; the others stand in the tables. */
  private static final int MOST_DEPARTURES = 6;

  /** The most dated solos that get a line in a strip; the earliest give way. */
  private static final int MOST_LINES = 12;

  private static final int WIDE_SYSTEM = 720;
  private static final double WIDE_STAFF_SPACE = 7;
  private static final int NARROW_SYSTEM = 344;
  private static final double NARROW_STAFF_SPACE = 6.4;
  private static final List<String> FACETS = List.of("harmony", "movement", "phrasing", "line");

  /**
   * A departure.
   *
   * @param direction what there is more or less of
   * @param statistic name of the statistic
   * @param meaning what it means to a player
   */
  public record DepartureItem(
      String direction,
      String statistic,
      String meaning,
      String standing,
      String norm,
      Picture picture) {}

  /** A statistic over the dates. */
  public record ProgressItem(String name, String sentence, Picture picture) {}

  /**
   * A solo.
   *
   * @param id place in the page
   * @param facts instrument, metre, tempo, centre, counts
   * @param file path of its file; empty when left out
   * @param lines four bars each; empty when excerpts are left out
   * @param score as notation
   * @param phrases phrase by phrase
   */
  public record SoloItem(
      String id,
      String heading,
      String facts,
      String file,
      List<Picture> lines,
      Score score,
      Grid phrases) {}

  /**
   * A solo as notation, broken into systems for a wide and for a narrow screen.
   *
   * @param reason why there is none; empty when there is, or when none was asked for
   */
  public record Score(List<Engraving> wide, List<Engraving> narrow, String reason) {
    private static final Score NONE = new Score(List.of(), List.of(), "");

    static Score of(String id, StudentSolo solo) {
      try {
        SoloLine line = solo.line();
        Integer key = solo.facts().keyFifths();
        return line.notes().isEmpty()
            ? NONE
            : new Score(
                Engraver.engrave(id + "-wide", line, key, WIDE_SYSTEM, WIDE_STAFF_SPACE),
                Engraver.engrave(id + "-narrow", line, key, NARROW_SYSTEM, NARROW_STAFF_SPACE),
                "");
      } catch (IllegalArgumentException e) {
        return new Score(List.of(), List.of(), FileText.withoutDirection(e.getMessage()));
      }
    }
  }

  /** Makes the page of a student. */
  static StudentPage of(
      StudyRows rows,
      Student student,
      String studyTitle,
      StatisticsCatalogue catalogue,
      ReportSettings settings,
      Names names,
      Numbers numbers,
      Shell shell) {
    return new Maker(rows, student, catalogue, settings, names, numbers)
        .page(FileText.printable(studyTitle), shell);
  }

  /** Holds what every part of the page needs. */
  private static final class Maker {
    private final StudyRows rows;
    private final Student student;
    private final StatisticsCatalogue catalogue;
    private final ReportSettings settings;
    private final Names names;
    private final Numbers numbers;
    private final Wording wording;
    private final Group group;
    private final List<String> labels;

    Maker(
        StudyRows rows,
        Student student,
        StatisticsCatalogue catalogue,
        ReportSettings settings,
        Names names,
        Numbers numbers) {
      this.rows = rows;
      this.student = student;
      this.catalogue = catalogue;
      this.settings = settings;
      this.names = names;
      this.numbers = numbers;
      this.wording = new Wording(numbers);
      this.labels = names.labels(student);
      boolean whole = student.comparisons().stream().anyMatch(c -> c.group().isWholeCorpus());
      this.group =
          whole || student.comparisons().isEmpty()
              ? Group.ALL
              : student.comparisons().get(0).group();
    }

    StudentPage page(String studyTitle, Shell shell) {
      List<Wording.Standing> ranked = ranked(true, "");
      return new StudentPage(
          shell,
          names.student(student),
          studyTitle,
          introduction(),
          questions(),
          headlineNumbers(),
          departures(ranked),
          latest(),
          everything(),
          otherGroups(),
          mix(Mix.BY_COUNT, "mix", "Note values by count", "notes"),
          mix(Mix.BY_TIME, "time-mix", "Note values by sounding time", "notes"),
          lengths(),
          progress(),
          progressNote(),
          solos(),
          settings.excerpts());
    }

    private String introduction() {
      int solos = student.solos().size();
      String beside =
          group.isWholeCorpus()
              ? wording.counted(rows.corpus().size(), "corpus solo")
                  + " by "
                  + wording.counted(rows.players(), "player")
              : "the corpus group " + Wording.group(group);
      return wording.counted(solos, "solo")
          + " with "
          + wording.counted(student.phrases(), "phrase")
          + ", beside "
          + beside
          + ".";
    }

    private List<StatisticDefinition> headlines() {
      return catalogue.all().stream().filter(StatisticDefinition::headline).toList();
    }

    private CorpusNorm norm(String statistic) {
      return rows.norm(group, statistic).orElse(null);
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
        List<Question.Figure> figures = new ArrayList<>();
        for (StatisticDefinition definition : definitions) {
          Optional<Comparison> pooled = student.pooled(group, definition.key());
          CorpusNorm norm = norm(definition.key());
          List<String> sentences = new ArrayList<>();
          if (pooled.isPresent()) {
            Wording.Standing standing = new Wording.Standing(definition, pooled.get(), norm);
            standings.add(standing);
            sentences.add(wording.standing(standing));
          }
          sentences.add(wording.norm(definition, norm, rows.corpusValues(group, definition.key())));
          if (definition.key().equals("centre_scale_share")) {
            chanceLevel().ifPresent(sentences::add);
          }
          figures.add(
              new Question.Figure(
                  definition.name(),
                  definition.meaning(),
                  sentences,
                  strip("q-" + definition.key(), definition, norm),
                  null));
        }
        questions.add(
            new Question(
                "question-" + facet,
                Wording.question(facet),
                Wording.questionExplained(facet),
                wording.answer(standings),
                figures));
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
              .filter(java.util.Objects::nonNull)
              .sorted()
              .toList();
      if (levels.isEmpty()) {
        return Optional.empty();
      }
      double middle = (levels.get((levels.size() - 1) / 2) + levels.get(levels.size() / 2)) / 2;
      return Optional.of(
          "A note picked at random would lie in the scale "
              + numbers.percent(middle)
              + " of the time (n\u00a0"
              + numbers.count(levels.size())
              + " solos).");
    }

    private Picture strip(String id, StatisticDefinition definition, CorpusNorm norm) {
      List<StatisticStrip.Entry> entries = new ArrayList<>();
      int solos = student.solos().size();
      if (solos > 1) {
        student
            .pooled(group, definition.key())
            .ifPresent(
                pooled ->
                    entries.add(
                        new StatisticStrip.Entry(
                            "all " + wording.counted(solos, "solo"),
                            pooled.value(),
                            pooled.n(),
                            true)));
      }
      for (int i = Math.max(0, solos - MOST_LINES); i < solos; i++) {
        Value value = student.solos().get(i).value(definition.key());
        entries.add(new StatisticStrip.Entry(labels.get(i), value.value(), value.n(), false));
      }
      return new StatisticStrip(numbers)
          .picture(id, definition, norm, rows.corpusValues(group, definition.key()), entries);
    }

    private Grid headlineNumbers() {
      if (student.solos().isEmpty()) {
        return null;
      }
      Grid.Builder grid = Grid.of("Headline values of every solo, each with its n").words("Solo");
      for (StatisticDefinition definition : headlines()) {
        grid.numbers(Wording.capitalised(definition.name()));
      }
      for (int i = 0; i < student.solos().size(); i++) {
        List<String> cells = new ArrayList<>(List.of(names.solo(student, i)));
        for (StatisticDefinition definition : headlines()) {
          cells.add(cell(definition, student.solos().get(i).value(definition.key())));
        }
        grid.row(cells);
      }
      if (student.solos().size() > 1) {
        List<String> cells = new ArrayList<>(List.of("Median of these solos"));
        for (StatisticDefinition definition : headlines()) {
          cells.add(
              student
                  .pooled(group, definition.key())
                  .map(c -> cell(definition, new Value(c.value(), c.n())))
                  .orElse("\u2013"));
        }
        grid.row(cells);
      }
      List<String> corpus = new ArrayList<>(List.of("Corpus: middle half"));
      for (StatisticDefinition definition : headlines()) {
        CorpusNorm norm = norm(definition.key());
        corpus.add(
            wording.band(definition, norm)
                + " (n\u00a0"
                + numbers.count(norm == null ? 0 : norm.n())
                + ")");
      }
      return grid.row(corpus).build();
    }

    private String cell(StatisticDefinition definition, Value value) {
      return (value.isDefined() ? numbers.bare(definition, value.value()) : "no value")
          + " (n\u00a0"
          + numbers.count(value.n())
          + ")";
    }

    /** The ranked comparisons of one scope, first place first. */
    private List<Wording.Standing> ranked(boolean pooled, String soloId) {
      List<Wording.Standing> ranked = new ArrayList<>();
      student.comparisons().stream()
          .filter(c -> c.pooled() == pooled && (pooled || c.soloId().equals(soloId)))
          .filter(c -> c.group().equals(group) && c.place() != null)
          .sorted(Comparator.comparing(Comparison::place))
          .forEach(
              c ->
                  catalogue
                      .named(c.statistic())
                      .ifPresent(d -> ranked.add(new Wording.Standing(d, c, norm(d.key())))));
      return ranked;
    }

    private List<DepartureItem> departures(List<Wording.Standing> ranked) {
      List<DepartureItem> items = new ArrayList<>();
      for (Wording.Standing standing :
          ranked.subList(0, Math.min(MOST_DEPARTURES, ranked.size()))) {
        StatisticDefinition definition = standing.definition();
        items.add(
            new DepartureItem(
                Wording.capitalised(Wording.direction(standing)),
                definition.name(),
                definition.meaning(),
                wording.standing(standing),
                wording.norm(
                    definition, standing.norm(), rows.corpusValues(group, definition.key())),
                strip("d-" + definition.key(), definition, standing.norm())));
      }
      return items;
    }

    private Grid latest() {
      Optional<StudentSolo> latest = student.latest();
      if (latest.isEmpty() || student.solos().size() < 2) {
        return null;
      }
      int place = student.solos().indexOf(latest.get());
      Grid.Builder grid =
          Grid.of(
                  "Farthest outside the middle half in the latest solo: "
                      + names.solo(student, place))
              .words("What")
              .numbers("Value", "n", "Middle half of the corpus", "Corpus n")
              .words("Where it stands");
      for (Wording.Standing standing : ranked(false, latest.get().facts().soloId())) {
        row(grid, Wording.capitalised(Wording.direction(standing)), standing);
        if (grid.size() == MOST_DEPARTURES) {
          break;
        }
      }
      return grid.build();
    }

    private void row(Grid.Builder grid, String first, Wording.Standing standing) {
      StatisticDefinition definition = standing.definition();
      Comparison comparison = standing.comparison();
      grid.row(
          first,
          comparison.value() == null
              ? "no value"
              : numbers.withUnit(definition, comparison.value()),
          numbers.count(comparison.n()),
          wording.band(definition, standing.norm()),
          numbers.count(comparison.normSolos()),
          FileText.withoutDirection(comparison.position()));
    }

    private List<Grid> everything() {
      List<Grid> grids = new ArrayList<>();
      for (String facet : FACETS) {
        Grid.Builder grid =
            Grid.of(Wording.facet(facet) + ": median of this student's solos beside the corpus")
                .words("Statistic")
                .numbers("Value", "n", "Middle half of the corpus", "Corpus n")
                .words("Where it stands");
        for (StatisticDefinition definition : catalogue.all()) {
          if (definition.facet().equals(facet)) {
            student
                .pooled(group, definition.key())
                .ifPresent(
                    c ->
                        row(
                            grid,
                            Wording.capitalised(definition.name()),
                            new Wording.Standing(definition, c, norm(definition.key()))));
          }
        }
        if (grid.size() > 0) {
          grids.add(grid.build());
        }
      }
      return grids;
    }

    private Grid otherGroups() {
      List<Group> others =
          student.comparisons().stream()
              .map(Comparison::group)
              .filter(g -> !g.equals(group))
              .distinct()
              .toList();
      if (others.isEmpty()) {
        return null;
      }
      Grid.Builder grid =
          Grid.of("Headline values beside other groups of the corpus")
              .words("Group", "Statistic")
              .numbers("Value", "n", "Middle half of the group", "Group n")
              .words("Where it stands");
      for (Group other : others) {
        for (StatisticDefinition definition : headlines()) {
          student
              .pooled(other, definition.key())
              .ifPresent(
                  c ->
                      grid.row(
                          Wording.group(other),
                          definition.name(),
                          c.value() == null ? "no value" : numbers.withUnit(definition, c.value()),
                          numbers.count(c.n()),
                          wording.band(definition, rows.norm(other, definition.key()).orElse(null)),
                          numbers.count(c.normSolos()),
                          FileText.withoutDirection(c.position())));
        }
      }
      return grid.size() == 0 ? null : grid.build();
    }

    private Mix mix(String prefix, String id, String title, String counted) {
      List<ValueMix.Entry> entries = new ArrayList<>();
      int corpusSolos =
          catalogue.all().stream()
              .filter(d -> d.key().startsWith(prefix))
              .map(d -> norm(d.key()))
              .filter(java.util.Objects::nonNull)
              .mapToInt(CorpusNorm::n)
              .max()
              .orElse(0);
      Mix.entry(
              catalogue,
              prefix,
              group.isWholeCorpus() ? "corpus average" : Wording.group(group),
              "n\u00a0" + wording.counted(corpusSolos, "solo"),
              key -> {
                CorpusNorm norm = norm(key);
                return norm == null || norm.mean() == null
                    ? new Value(null, 0)
                    : new Value(norm.mean(), norm.n());
              })
          .ifPresent(entries::add);
      for (int i = 0; i < student.solos().size(); i++) {
        StudentSolo solo = student.solos().get(i);
        Mix.entry(
                catalogue,
                prefix,
                labels.get(i),
                "n\u00a0" + numbers.count(solo.facts().notes()) + " " + counted,
                solo::value)
            .ifPresent(entries::add);
      }
      return Mix.of(id, title, title + ", as shares that sum to 100 %", entries, numbers);
    }

    private Picture lengths() {
      List<PhraseLengths.Entry> entries = new ArrayList<>();
      boolean any = false;
      for (int i = 0; i < student.solos().size(); i++) {
        List<Double> lengths =
            student.solos().get(i).line().phrases().stream()
                .map(SoloLine.PhraseSpan::lengthBars)
                .filter(java.util.Objects::nonNull)
                .toList();
        any |= !lengths.isEmpty();
        entries.add(new PhraseLengths.Entry(labels.get(i), lengths));
      }
      return any
          ? new PhraseLengths(numbers)
              .picture("lengths", "Phrase lengths in bars", rows.corpusPhraseBars(), entries)
          : null;
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
          CorpusNorm norm = norm(definition.key());
          items.add(
              new ProgressItem(
                  Wording.capitalised(definition.name()),
                  wording.progress(
                      definition,
                      norm,
                      entries.get(0).value(),
                      entries.get(entries.size() - 1).value(),
                      entries.size()),
                  new Progress(numbers)
                      .picture("p-" + definition.key(), definition, norm, entries)));
        }
      }
      return items;
    }

    private String progressNote() {
      long dated =
          student.solos().stream()
              .filter(solo -> Numbers.day(solo.facts().date()).isPresent())
              .count();
      return dated >= 3
          ? ""
          : "Movement over time needs at least three dated solos; this student has "
              + numbers.count(dated)
              + ".";
    }

    private List<SoloItem> solos() {
      List<SoloItem> items = new ArrayList<>();
      for (int i = 0; i < student.solos().size(); i++) {
        StudentSolo solo = student.solos().get(i);
        String id = "solo-" + (i + 1);
        items.add(
            new SoloItem(
                id,
                names.solo(student, i),
                facts(solo),
                settings.pseudonyms() ? "" : FileText.printable(solo.facts().file()),
                settings.excerpts()
                    ? new Timeline(numbers).pictures(id + "-line", solo.line())
                    : List.of(),
                settings.excerpts() ? Score.of(id + "-score", solo) : Score.NONE,
                phrases(solo)));
      }
      return items;
    }

    private String facts(StudentSolo solo) {
      List<String> facts = new ArrayList<>();
      if (!solo.facts().instrument().isBlank()) {
        facts.add(FileText.withoutDirection(solo.facts().instrument()));
      }
      facts.add(solo.facts().metre());
      if (solo.facts().tempo() != null) {
        facts.add(numbers.decimal(solo.facts().tempo(), 0) + " quarters a minute");
      }
      String centre = MusicText.centre(solo.facts().centreTonic(), solo.facts().centreMode());
      if (!centre.isEmpty()) {
        facts.add("centre " + centre + " (concert)");
      }
      facts.add(wording.counted(solo.facts().bars(), "bar"));
      facts.add(wording.counted(solo.facts().notes(), "note"));
      facts.add(wording.counted(solo.facts().phrases(), "phrase"));
      if (settings.excerpts() && solo.line().notes().stream().anyMatch(SoloLine.Tone::transposed)) {
        facts.add("pitches and chords as the player reads them");
      }
      return String.join(" \u00b7 ", facts);
    }

    private Grid phrases(StudentSolo solo) {
      Grid.Builder grid =
          Grid.of("Phrase by phrase")
              .numbers("Phrase")
              .words("Bars")
              .numbers("Length in bars", "Notes")
              .words("Landings");
      SoloLine line = solo.line();
      for (SoloLine.PhraseSpan phrase : line.phrases()) {
        List<String> landings = new ArrayList<>();
        for (SoloLine.LandingMark landing : line.landings()) {
          if (landing.phraseIndex() == phrase.index()) {
            landings.add(
                MusicText.landing(landing.kind()) + " " + MusicText.degree(landing.degree()));
          }
        }
        String first = FileText.printable(phrase.firstBar());
        String last = FileText.printable(phrase.lastBar());
        grid.row(
            numbers.count(phrase.index() + 1L),
            first.equals(last) ? first : first + "\u2013" + last,
            phrase.lengthBars() == null ? "no metre" : numbers.decimal(phrase.lengthBars(), 2),
            numbers.count(phrase.notes()),
            String.join(", ", landings));
      }
      return grid.build();
    }
  }
}
