package phrasecensus.comparison;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import phrasecensus.music.comparison.PredictiveMixture;
import phrasecensus.music.comparison.StudentComparison;
import phrasecensus.music.comparison.StudentVerdicts;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableRow;

/**
 * Judges all statistics of a student, scope, solo and group together: three families, a level and
 * an interval for each statistic, and the order in which they are told.
 */
public final class DepartureVerdicts {
  /** Rows that are equal in these were tested together. */
  public static final List<String> LIST_COLUMNS =
      List.of("student", "scope", "solo_id", "group_by", "group_value");

  private DepartureVerdicts() {}

  /** The finished rows. */
  public static List<TableRow> of(List<DepartureRows.Draft> drafts) {
    Map<String, List<DepartureRows.Draft>> lists = new TreeMap<>();
    for (DepartureRows.Draft draft : drafts) {
      lists
          .computeIfAbsent(
              String.join("\u0000", LIST_COLUMNS.stream().map(draft.row()::text).toList()),
              key -> new ArrayList<>())
          .add(draft);
    }
    // Each list for itself, so that the order of the rows does not depend on who is first.
    return List.copyOf(lists.values()).parallelStream()
        .map(DepartureVerdicts::judged)
        .toList()
        .stream()
        .flatMap(List::stream)
        .toList();
  }

  private static List<TableRow> judged(List<DepartureRows.Draft> unordered) {
    List<DepartureRows.Draft> list =
        unordered.stream()
            .sorted(Comparator.comparing(draft -> draft.row().text("statistic")))
            .toList();
    List<StudentVerdicts.Tested> tested = new ArrayList<>();
    for (DepartureRows.Draft draft : list) {
      TableRow row = draft.row();
      boolean headline =
          StatisticsCatalogue.builtIn()
              .named(row.text("statistic"))
              .map(StatisticDefinition::headline)
              .orElse(false);
      tested.add(
          new StudentVerdicts.Tested(
              row.text("statistic"),
              row.text("facet"),
              headline,
              row.isMissing("p_value") ? Double.NaN : row.number("p_value"),
              draft.comparison().phrases(),
              row.isMissing("phrases_for_half")
                  ? Double.POSITIVE_INFINITY
                  : row.number("phrases_for_half")));
    }
    StudentVerdicts verdicts = StudentVerdicts.of(tested);
    Map<String, StudentVerdicts.Question> questions = new HashMap<>();
    verdicts.questions().forEach(question -> questions.put(question.facet(), question));
    List<TableRow> judged = new ArrayList<>();
    for (int i = 0; i < list.size(); i++) {
      judged.add(
          judged(
              list.get(i),
              verdicts.statistics().get(i),
              tested.get(i).headline() ? questions.get(tested.get(i).facet()) : null));
    }
    return placed(judged);
  }

  private static TableRow judged(
      DepartureRows.Draft draft,
      StudentVerdicts.Verdict verdict,
      StudentVerdicts.Question question) {
    TableRow.Builder row = TableRow.copyOf(draft.row());
    if (question != null) {
      row.set("question_p_adjusted", question.adjusted())
          .set("question_differs", question.isDifferent())
          .set("question_together", question.together());
    }
    if (!verdict.isTested()) {
      return row.build();
    }
    StudentComparison comparison = draft.comparison();
    PredictiveMixture.Range range = comparison.range(verdict.level());
    row.set("level", verdict.level())
        .set("interval_low", comparison.shown(range.low()))
        .set("interval_high", comparison.shown(range.high()));
    if (verdict.family() == StudentVerdicts.Family.NONE) {
      return row.set("verdict", "unreliable").build();
    }
    row.set("family", verdict.family() == StudentVerdicts.Family.HEADLINES ? "headlines" : "others")
        .set("tests", verdict.tests())
        .set("p_adjusted", verdict.adjusted());
    if (verdict.clear()) {
      row.set(
          "verdict",
          comparison.mean().value() < (range.low() + range.high()) / 2 ? "below" : "above");
    }
    return row.build();
  }

  /** Clear ones first, headlines before others, each by p; then what is described, by its size. */
  private static List<TableRow> placed(List<TableRow> rows) {
    List<TableRow> order =
        rows.stream()
            .filter(row -> isClear(row) || isDescribed(row))
            .sorted(
                Comparator.comparing((TableRow row) -> !isClear(row))
                    .thenComparing(row -> !"headlines".equals(row.text("family")))
                    .thenComparing(
                        row ->
                            isClear(row)
                                ? row.number("p_value")
                                : -Math.abs(row.number("cliffs_delta")))
                    .thenComparing(row -> row.text("statistic")))
            .toList();
    List<TableRow> placed = new ArrayList<>();
    for (TableRow row : rows) {
      int place = order.indexOf(row);
      placed.add(place < 0 ? row : TableRow.copyOf(row).set("place", place + 1).build());
    }
    return placed;
  }

  private static boolean isClear(TableRow row) {
    return row.text("verdict").equals("above") || row.text("verdict").equals("below");
  }

  private static boolean isDescribed(TableRow row) {
    return row.text("verdict").equals("described") && !row.isMissing("cliffs_delta");
  }
}
