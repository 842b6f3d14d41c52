package phrasecensus.comparison;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import phrasecensus.music.comparison.ComparedSolo;
import phrasecensus.music.comparison.GroupComparison;
import phrasecensus.music.comparison.PredictiveMixture;
import phrasecensus.music.comparison.Reliability;
import phrasecensus.music.comparison.StudentComparison;
import phrasecensus.music.norm.CliffsDelta;
import phrasecensus.music.norm.HodgesLehmann;
import phrasecensus.music.norm.Interval;
import phrasecensus.music.norm.Sample;
import phrasecensus.music.norm.Wasserstein;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;

/** Makes rows of table {@code departures}, but for what depends on other statistics. */
final class DepartureRows {
  /** Two values that differ by less than this by tempo being taken out and put in are equal. */
  private static final double EQUAL = 1e-9;

  private DepartureRows() {}

  /**
   * A row before its statistic is judged together with the others.
   *
   * @param row with the verdict {@code inside} where the statistic is tested
   * @param comparison what verdict and interval are made of
   */
  record Draft(TableRow row, StudentComparison comparison) {}

  /** A draft as plain values, on its way to the driver. */
  record PlainDraft(PlainRow row, StudentComparison comparison) implements Serializable {
    static PlainDraft of(Draft draft) {
      return new PlainDraft(PlainRow.of(draft.row), draft.comparison);
    }

    Draft draft() {
      return new Draft(row.row(), comparison);
    }
  }

  /**
   * @param values of the statistic
   * @param models the same as students are compared with it
   * @param group to hold the student against, without the student's own solos
   * @param solos the student's solos one by one: the one itself, or all that are pooled
   * @param reference the group the student is held against first
   */
  static Draft of(
      StatisticValues values,
      ComparisonModels models,
      CorpusGroup group,
      Student student,
      List<Student> solos,
      ReferenceGroup reference) {
    StatisticDefinition definition = values.definition();
    String statistic = definition.key();
    boolean pooled = student.scope().equals(Student.POOLED);
    List<ComparedSolo> compared = solos.stream().map(solo -> solo.compared(statistic)).toList();
    GroupComparison held = models.group(group, compared, student.twins());
    StudentComparison comparison = StudentComparison.of(held, compared);
    Double raw = student.values().get(statistic);
    Double value = pooled && comparison.hasValue() ? (Double) comparison.shown() : raw;
    double half = models.phrasesForHalf();
    TableRow.Builder row =
        TableRow.of(TableSchemas.named("departures"))
            .set("student", student.student())
            .set("scope", student.scope())
            .set("solo_id", student.soloId())
            .set("date", student.date())
            .set("group_by", group.by())
            .set("group_value", group.value())
            .set("reference", reference.is(group))
            .set("reference_reason", reference.is(group) ? reference.reason().word() : null)
            .set("left_out", student.sameFiles())
            .set("left_out_as_player", student.twins().size() - student.sameFiles())
            .set("statistic", statistic)
            .set("facet", definition.facet())
            .set("value", value)
            .set("n", student.counts().getOrDefault(statistic, 0))
            .set("solos", comparison.hasValue() ? comparison.mean().solos() : 0)
            .set("pooled_value", pooled && Students.isShare(statistic) ? raw : null)
            .set("norm_n", held.solos())
            .set("norm_players", held.players())
            .set("norm_unnamed", held.unnamed())
            .set("one_player", held.isOnePlayer())
            .set("tempo_taken_out", held.isTempoTakenOut() && comparison.hasValue())
            .set("verdict", verdict(comparison, held, models, group))
            .set("phrases", (int) Math.round(comparison.phrases()))
            .set("phrases_for_half", Double.isInfinite(half) ? null : (Double) half)
            .set("reliability", Reliability.at(comparison.phrases(), half))
            .set("reliability_source", models.isReliabilityOfStudy() ? "study" : "shipped");
    place(row, models, group, student.twins(), compared, comparison, value);
    if (comparison.hasValue()) {
      band(row, held, comparison);
    }
    if (comparison.isTested()) {
      row.set("p_value", comparison.p()).set("distance", comparison.distance());
    }
    boolean few = isFew(comparison, held, group);
    if (comparison.hasValue() && held.solos() > 0 && (pooled || few)) {
      phrases(row, values, group, solos, few);
    }
    return new Draft(row.build(), comparison);
  }

  /** Where the value stands among the group's at the student's tempo. */
  private static void place(
      TableRow.Builder row,
      ComparisonModels models,
      CorpusGroup group,
      Set<String> own,
      List<ComparedSolo> compared,
      StudentComparison comparison,
      Double value) {
    if (value == null || !comparison.hasValue()) {
      row.set("position", value == null ? "undefined" : "too-little");
      return;
    }
    double[] others = models.valuesAt(group, compared, own, comparison.shift());
    int below = 0;
    int equal = 0;
    for (double other : others) {
      if (Math.abs(other - value) <= EQUAL * Math.max(1, Math.abs(value))) {
        equal++;
      } else if (other < value) {
        below++;
      }
    }
    int above = others.length - below - equal;
    row.set("position", position(below, equal, above))
        .set("norm_below", others.length == 0 ? null : (Integer) below)
        .set("norm_equal", others.length == 0 ? null : (Integer) equal)
        .set(
            "percentile_rank",
            others.length == 0 ? null : (Double) (100 * (below + equal / 2.0) / others.length));
  }

  private static String position(int below, int equal, int above) {
    int n = below + equal + above;
    if (n == 0) {
      return "no-solos";
    }
    if (equal == n) {
      return "equal-to-all";
    }
    if (below == n) {
      return "above-all";
    }
    if (above == n) {
      return "below-all";
    }
    return below == above ? "middle" : below > above ? "above-more" : "below-more";
  }

  private static void band(
      TableRow.Builder row, GroupComparison held, StudentComparison comparison) {
    row.set("band_median", finite(comparison.shown(held.band().median())));
    if (held.band().hasQuartiles()) {
      row.set("band_low", comparison.shown(held.band().lower()))
          .set("band_high", comparison.shown(held.band().upper()));
    }
  }

  private static Double finite(double value) {
    return Double.isFinite(value) ? (Double) value : null;
  }

  private static boolean isFew(
      StudentComparison comparison, GroupComparison held, CorpusGroup group) {
    return comparison.hasValue()
        && held.solos() > 0
        && held.solos() < PredictiveMixture.LEAST_SOLOS_ALONE
        && !held.others().speak()
        && (held.mixture().isEmpty() || group.isOnePlayer());
  }

  private static String verdict(
      StudentComparison comparison,
      GroupComparison held,
      ComparisonModels models,
      CorpusGroup group) {
    if (!comparison.hasValue()) {
      return "too-little";
    }
    if (comparison.isTested()) {
      return "inside";
    }
    int least =
        held.isOnePlayer()
            ? PredictiveMixture.LEAST_SOLOS_OF_ONE
            : PredictiveMixture.leastSolos(held.others());
    if (held.solos() >= least) {
      return "constant";
    }
    return isFew(comparison, held, group) ? "described" : "no-norm";
  }

  /**
   * @param described true where there is no verdict, so that intervals of these solos' own say
   *     nothing against one
   */
  private static void phrases(
      TableRow.Builder row,
      StatisticValues values,
      CorpusGroup group,
      List<Student> solos,
      boolean described) {
    List<double[]> own = new ArrayList<>();
    for (Student solo : solos) {
      double[] phrases = values.phrases().get(solo.soloId());
      if (phrases != null) {
        own.add(phrases);
      }
    }
    List<double[]> corpus = group.phrasesBySolo(values.phrases());
    if (own.isEmpty() || corpus.isEmpty()) {
      return;
    }
    Sample ownPhrases = pooled(own);
    Sample corpusPhrases = pooled(corpus);
    row.set("cliffs_delta", CliffsDelta.of(ownPhrases, corpusPhrases).delta())
        .set("shift", HodgesLehmann.shift(ownPhrases, corpusPhrases))
        .set("wasserstein", Wasserstein.distance(ownPhrases, corpusPhrases));
    if (described && Math.min(own.size(), corpus.size()) >= LEAST_DESCRIBED_SOLOS) {
      interval(row, "delta", CliffsDelta.ofClusters(own, corpus).interval());
      interval(row, "shift", HodgesLehmann.ofClusters(own, corpus).interval());
    }
  }

  /** Intervals of a description are told from so many solos on either side on. */
  private static final int LEAST_DESCRIBED_SOLOS = 5;

  private static Sample pooled(List<double[]> clusters) {
    return Sample.of(clusters.stream().flatMapToDouble(Arrays::stream).toArray());
  }

  private static void interval(TableRow.Builder row, String stem, Interval interval) {
    row.set(stem + "_low", interval == null ? null : interval.lower())
        .set(stem + "_high", interval == null ? null : interval.upper());
  }
}
