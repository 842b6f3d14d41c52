package phrasecensus.report.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import phrasecensus.report.picture.Picture;
import phrasecensus.report.rows.Comparison;
import phrasecensus.report.rows.Exemplar;
import phrasecensus.report.rows.Group;
import phrasecensus.report.rows.SoloFacts;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.rows.Student;
import phrasecensus.report.rows.StudentSolo;
import phrasecensus.report.rows.StudyRows;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.Numbers;
import phrasecensus.report.wording.Text;
import phrasecensus.report.wording.Wording;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.row.DepartureVerdict;

/**
 * The part of a student's page that says where the solos stand apart from the corpus. Drawn is only
 * what is hardly chance; the rest is left to tables.
 *
 * @param items what stands apart clearly, the farthest first; empty where nothing does
 * @param ranked the same as it stands in the table, one for each item
 * @param none what to say where nothing stands apart clearly; empty where something does
 * @param rest what else lies outside the middle half; null without any
 * @param latest the same for the latest solo; null when there is but one
 * @param everything every compared statistic, a table a facet
 * @param otherGroups headline values beside the other groups; null when there are none
 */
public record StudentDepartures(
    List<Item> items,
    List<Wording.Standing> ranked,
    String none,
    Grid rest,
    Grid latest,
    List<Grid> everything,
    Grid otherGroups) {

  /** The most that a short table lists. */
  static final int MOST = 6;

  /** The most that get a picture and notation: a student works on one thing at a time. */
  private static final int MOST_DRAWN = 3;

  /**
   * Where nothing can be judged, a difference of phrases is shown from this delta on, if no
   * interval says more: two pairs in three (N. Cliff's delta of .33 is called medium, from memory).
   */
  private static final double LEAST_DESCRIBED = 0.33;

  private static final List<String> FACETS = List.of("harmony", "movement", "phrasing", "line");

  /**
   * A departure.
   *
   * @param id place in the page
   * @param direction what there is more or less of
   * @param meaning what it means to a player
   * @param sureness how far it can be relied on
   * @param own a phrase of the student that shows it; null without one
   * @param other a phrase of the corpus that does the other thing; null without one
   */
  public record Item(
      String id,
      String direction,
      String meaning,
      String standing,
      String norm,
      String sureness,
      Picture picture,
      Excerpt own,
      Excerpt other) {}

  /** Finds what there is to say of a student. */
  static StudentDepartures of(PageSource source, Student student, StudentFigures figures) {
    return new Maker(source, student, figures).made();
  }

  /** True where a departure is worth a picture: it is clear, or described and not small. */
  static boolean isShown(Comparison comparison) {
    return comparison.isOutside()
        || comparison.verdict() == DepartureVerdict.DESCRIBED
            && comparison.delta().isKnown()
            && (comparison.delta().hasEnds()
                ? comparison.delta().low() > 0 || comparison.delta().high() < 0
                : Math.abs(comparison.delta().value()) >= LEAST_DESCRIBED);
  }

  /** Holds what every table needs. */
  private static final class Maker {
    private final PageSource source;
    private final StudyRows rows;
    private final Student student;
    private final StudentFigures figures;
    private final Group group;
    private final StatisticsCatalogue catalogue;
    private final Numbers numbers;
    private final Wording wording;

    Maker(PageSource source, Student student, StudentFigures figures) {
      this.source = source;
      this.rows = source.rows();
      this.student = student;
      this.figures = figures;
      this.group = figures.group();
      this.catalogue = source.catalogue();
      this.numbers = source.numbers();
      this.wording = source.wording();
    }

    StudentDepartures made() {
      List<Wording.Standing> shown = new ArrayList<>();
      List<Wording.Standing> left = new ArrayList<>();
      for (Wording.Standing standing : figures.ranked(true, "")) {
        (shown.size() < MOST_DRAWN && isShown(standing.comparison()) ? shown : left).add(standing);
      }
      left.addAll(figures.besideBand(""));
      return new StudentDepartures(
          items(shown),
          shown,
          none(shown, left),
          rest(left),
          latest(),
          everything(),
          otherGroups());
    }

    private String none(List<Wording.Standing> shown, List<Wording.Standing> left) {
      if (!shown.isEmpty()) {
        return "";
      }
      return Text.of(
          student.together().stream().anyMatch(c -> c.pValue() != null)
              ? left.isEmpty() ? "student.apart.none" : "student.apart.unsure"
              : "student.apart.untested",
          figures.beside());
    }

    private List<StatisticDefinition> headlines() {
      return catalogue.all().stream().filter(StatisticDefinition::headline).toList();
    }

    private List<Item> items(List<Wording.Standing> shown) {
      if (source.settings().excerpts()) {
        List<String> needed = new ArrayList<>();
        for (Wording.Standing standing : shown) {
          student
              .exemplars(group, standing.definition().key(), true)
              .forEach(exemplar -> needed.add(exemplar.phraseSoloId()));
        }
        rows.prepareLines(needed);
      }
      List<Item> items = new ArrayList<>();
      for (Wording.Standing standing : shown) {
        StatisticDefinition definition = standing.definition();
        String id = "departure-" + (items.size() + 1);
        items.add(
            new Item(
                id,
                Wording.capitalised(Wording.direction(standing)),
                Text.of("student.apart.meaning", definition.meaning()),
                wording.standing(standing),
                wording.norm(standing),
                wording.sureness(standing),
                figures.strip("d-" + definition.key(), standing),
                exemplar(id + "-own", standing, false),
                exemplar(id + "-other", standing, true)));
      }
      return items;
    }

    /** The first phrase of the table that can be engraved; null without one. */
    private Excerpt exemplar(String id, Wording.Standing standing, boolean ofCorpus) {
      StatisticDefinition definition = standing.definition();
      if (!source.settings().excerpts()) {
        return null;
      }
      for (Exemplar exemplar : student.exemplars(group, definition.key(), ofCorpus)) {
        SoloFacts facts = null;
        SoloLine line = SoloLine.NONE;
        String name = "";
        if (ofCorpus) {
          facts = rows.corpusSolo(exemplar.phraseSoloId()).orElse(null);
          line = rows.corpusLine(exemplar.phraseSoloId());
          name =
              facts == null
                  ? ""
                  : StudentFigures.corpusSolo(facts.title(), facts.performer(), facts.soloId());
        } else {
          for (int i = 0; i < student.solos().size(); i++) {
            StudentSolo solo = student.solos().get(i);
            if (solo.facts().soloId().equals(exemplar.phraseSoloId())) {
              facts = solo.facts();
              line = solo.line();
              name = source.names().solo(student, i);
            }
          }
        }
        Optional<SoloLine.PhraseSpan> phrase = line.phrase(exemplar.phraseIndex());
        if (facts != null && phrase.isPresent()) {
          StatisticDefinition shownBy = catalogue.named(exemplar.shownBy()).orElse(definition);
          boolean turned = standing.isTurned() && shownBy.equals(definition);
          StatisticDefinition named = turned ? shownBy.turned() : shownBy;
          String where =
              Text.of(
                  "student.apart.excerpt",
                  FileText.withoutDirection(name),
                  StudentFigures.bars(phrase.get()));
          Excerpt excerpt =
              Excerpt.of(
                  source.scores(),
                  id,
                  Text.of(ofCorpus ? "student.apart.other" : "student.apart.own", where),
                  Text.of(
                      "student.apart.value",
                      Wording.capitalised(named.name()),
                      numbers.ofPhrase(named, turned ? 1 - exemplar.value() : exemplar.value())),
                  facts,
                  line,
                  phrase.get());
          if (!excerpt.score().isEmpty()) {
            return excerpt;
          }
        }
      }
      return null;
    }

    private Grid rest(List<Wording.Standing> left) {
      Grid.Builder grid = figures.comparisons(Text.of("student.apart.rest"), Text.of("table.what"));
      for (Wording.Standing standing : left) {
        figures.addTo(grid, Wording.capitalised(Wording.direction(standing)), standing);
      }
      return grid.size() == 0 ? null : grid.build();
    }

    private Grid latest() {
      Optional<StudentSolo> latest = student.latest();
      if (latest.isEmpty() || student.solos().size() < 2) {
        return null;
      }
      int place = student.solos().indexOf(latest.get());
      Grid.Builder grid =
          figures.comparisons(
              Text.of("student.apart.latest.table", source.names().solo(student, place)),
              Text.of("table.what"));
      for (Wording.Standing standing : figures.ranked(false, latest.get().facts().soloId())) {
        figures.addTo(grid, Wording.capitalised(Wording.direction(standing)), standing);
        if (grid.size() == MOST) {
          break;
        }
      }
      return grid.size() == 0 ? null : grid.build();
    }

    private List<Grid> everything() {
      List<Grid> grids = new ArrayList<>();
      for (String facet : FACETS) {
        Grid.Builder grid =
            figures.comparisons(
                Text.of("table.everything", Wording.facet(facet), figures.beside()),
                Text.of("table.statistic"));
        for (StatisticDefinition definition : catalogue.all()) {
          if (definition.facet().equals(facet)) {
            student
                .pooled(group, definition.key())
                .map(c -> new Wording.Standing(definition, c, figures.norm(definition.key())))
                .ifPresent(
                    standing ->
                        figures.addTo(
                            grid,
                            Wording.capitalised(standing.told().definition().name()),
                            standing));
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
          Grid.of(Text.of("student.apart.groups.table"))
              .words(Text.of("table.group"), Text.of("table.statistic"))
              .numbers(
                  Text.of("table.value"),
                  Text.of("table.n"),
                  Text.of("table.band.group"),
                  Text.of("table.group-n"))
              .words(Text.of("table.where"));
      for (Group other : others) {
        for (StatisticDefinition definition : headlines()) {
          student
              .pooled(other, definition.key())
              .map(c -> new Wording.Standing(definition, c, null))
              .ifPresent(
                  standing ->
                      grid.row(
                          Wording.group(other),
                          standing.told().definition().name(),
                          wording.figure(standing),
                          numbers.count(
                              standing.comparison().pooled()
                                  ? standing.comparison().solos()
                                  : standing.comparison().n()),
                          wording.band(standing),
                          numbers.count(standing.comparison().normSolos()),
                          wording.where(standing)));
        }
      }
      return grid.size() == 0 ? null : grid.build();
    }
  }
}
