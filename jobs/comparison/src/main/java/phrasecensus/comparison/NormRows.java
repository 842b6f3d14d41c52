package phrasecensus.comparison;

import java.util.LinkedHashMap;
import java.util.Map;
import phrasecensus.music.norm.Interval;
import phrasecensus.music.norm.Norm;
import phrasecensus.music.norm.QuantileInterval;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;

/** Makes rows of table {@code norms}. */
final class NormRows {
  private NormRows() {}

  /**
   * @param models the statistic as students are compared with it; null where it is not compared
   */
  static TableRow of(String statistic, CorpusGroup group, ComparisonModels models) {
    Norm norm = group.norm();
    Interval mean =
        group.meanInterval().map(interval -> withinRange(statistic, interval)).orElse(null);
    TableRow.Builder row =
        TableRow.of(TableSchemas.named("norms"))
            .set("group_by", group.by())
            .set("group_value", group.value())
            .set("statistic", statistic)
            .set("n", norm.n())
            .set("undefined", norm.undefinedCount())
            .set("players", norm.playerCount())
            .set("shown", shown(norm))
            .set("dominated_by", norm.dominantPlayer())
            .set("minimum", norm.min())
            .set("p05", norm.p05())
            .set("p10", norm.p10())
            .set("p25", norm.p25())
            .set("p50", norm.p50())
            .set("p75", norm.p75())
            .set("p90", norm.p90())
            .set("p95", norm.p95())
            .set("maximum", norm.max())
            .set("mean", norm.mean())
            .set("mean_low", mean == null ? null : mean.lower())
            .set("mean_high", mean == null ? null : mean.upper())
            .set("median_absolute_deviation", norm.medianAbsoluteDeviation())
            .set("design_effect", norm.n() == 0 ? null : norm.designEffect());
    if (models != null) {
      double half = models.phrasesForHalf();
      row.set("phrases_for_half", Double.isInfinite(half) ? null : (Double) half)
          .set("reliability_source", models.isReliabilityOfStudy() ? "study" : "shipped");
    }
    Map<String, Double> intervals = new LinkedHashMap<>();
    intervals.put("p25", 0.25);
    intervals.put("p50", 0.5);
    intervals.put("p75", 0.75);
    intervals.forEach(
        (name, probability) -> {
          QuantileInterval interval = norm.interval(probability).orElse(null);
          row.set(name + "_low", interval == null ? null : interval.lower());
          row.set(name + "_high", interval == null ? null : interval.upper());
        });
    return row.build();
  }

  /** A share is told no limit below 0 or above 1. */
  private static Interval withinRange(String statistic, Interval interval) {
    boolean share =
        StatisticsCatalogue.builtIn()
            .named(statistic)
            .map(definition -> definition.unit().equals("share"))
            .orElse(false);
    return share
        ? new Interval(
            Math.max(0, interval.lower()), Math.min(1, interval.upper()), interval.confidence())
        : interval;
  }

  private static String shown(Norm norm) {
    return switch (norm.level()) {
      case LIST_ONLY -> "list";
      case MEDIAN -> "median";
      case QUARTILES -> "quartiles";
      case DECILES -> "deciles";
      case FULL -> "full";
    };
  }
}
