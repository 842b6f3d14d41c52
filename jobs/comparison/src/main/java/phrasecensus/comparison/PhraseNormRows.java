package phrasecensus.comparison;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import phrasecensus.music.norm.NormLevel;
import phrasecensus.music.norm.Quantiles;
import phrasecensus.music.norm.Sample;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;

/**
 * Makes rows of table {@code phrase_norms}: all phrases of a group in one heap, so that a long solo
 * weighs more than a short one. It stands beside the norms, which count every solo once, and no
 * test is made of it, for phrases of one solo are alike.
 */
final class PhraseNormRows {
  private PhraseNormRows() {}

  static TableRow of(StatisticValues values, CorpusGroup group) {
    List<double[]> bySolo = new ArrayList<>();
    Set<String> players = new HashSet<>();
    for (CorpusSolo solo : group.solos()) {
      double[] phrases = values.phrases().get(solo.soloId());
      if (phrases != null) {
        bySolo.add(phrases);
        players.add(solo.player());
      }
    }
    double[] pooled = new double[bySolo.stream().mapToInt(phrases -> phrases.length).sum()];
    int filled = 0;
    for (double[] phrases : bySolo) {
      System.arraycopy(phrases, 0, pooled, filled, phrases.length);
      filled += phrases.length;
    }
    Sample sample = Sample.of(pooled);
    boolean any = !sample.isEmpty();
    return TableRow.of(TableSchemas.named("phrase_norms"))
        .set("group_by", group.by())
        .set("group_value", group.value())
        .set("statistic", values.definition().key())
        .set("n", sample.size())
        .set("solos", bySolo.size())
        .set("players", players.size())
        .set("minimum", any ? (Double) sample.min() : null)
        .set("p05", quantile(sample, 0.05, NormLevel.FULL))
        .set("p10", quantile(sample, 0.1, NormLevel.DECILES))
        .set("p25", quantile(sample, 0.25, NormLevel.QUARTILES))
        .set("p50", quantile(sample, 0.5, NormLevel.MEDIAN))
        .set("p75", quantile(sample, 0.75, NormLevel.QUARTILES))
        .set("p90", quantile(sample, 0.9, NormLevel.DECILES))
        .set("p95", quantile(sample, 0.95, NormLevel.FULL))
        .set("maximum", any ? (Double) sample.max() : null)
        .set("mean", any ? (Double) sample.mean() : null)
        .build();
  }

  private static Double quantile(Sample sample, double probability, NormLevel needed) {
    return NormLevel.of(sample.size()).reaches(needed)
        ? (Double) Quantiles.of(sample, probability)
        : null;
  }
}
