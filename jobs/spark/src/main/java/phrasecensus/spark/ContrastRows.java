package phrasecensus.spark;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;
import phrasecensus.music.norm.CliffsDelta;
import phrasecensus.music.norm.Cluster;
import phrasecensus.music.norm.HodgesLehmann;
import phrasecensus.music.norm.Norm;
import phrasecensus.music.norm.PermutationTest;
import phrasecensus.music.norm.Sample;
import phrasecensus.music.norm.Wasserstein;
import phrasecensus.tables.Grouping;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;

/** Makes rows of table {@code contrasts}, but for what depends on other statistics. */
final class ContrastRows {
  /** Smaller groups are not contrasted: six solos are the fewest with an interval of the median. */
  static final int LEAST_SOLOS = 6;

  /** Fifteen pairs a column: with more, nobody reads them and every p-value is adjusted away. */
  static final int MOST_GROUPS = 6;

  private ContrastRows() {}

  /** The rows of all pairs of groups of one column. */
  static List<TableRow> of(StatisticDefinition definition, List<CorpusGroup> groups) {
    // By all solos, those without a value too, so that each statistic has the same pairs.
    List<CorpusGroup> chosen =
        groups.stream()
            .filter(group -> group.solos().size() >= LEAST_SOLOS)
            .filter(group -> !Grouping.isLeftover(group.value()) && !group.value().isBlank())
            .sorted(
                Comparator.comparing((CorpusGroup group) -> -group.solos().size())
                    .thenComparing(CorpusGroup::value))
            .limit(MOST_GROUPS)
            .sorted(Comparator.comparing(CorpusGroup::value))
            .toList();
    List<TableRow> rows = new ArrayList<>();
    for (int i = 0; i < chosen.size(); i++) {
      for (int j = i + 1; j < chosen.size(); j++) {
        rows.add(row(definition, chosen.get(i), chosen.get(j)));
      }
    }
    return rows;
  }

  private static TableRow row(
      StatisticDefinition definition, CorpusGroup first, CorpusGroup second) {
    TableRow.Builder row =
        TableRow.of(TableSchemas.named("contrasts"))
            .set("group_by", first.by())
            .set("first_group", first.value())
            .set("second_group", second.value())
            .set("statistic", definition.key())
            .set("facet", definition.facet())
            .set("first_n", first.norm().n())
            .set("second_n", second.norm().n())
            .set("first_players", first.norm().playerCount())
            .set("second_players", second.norm().playerCount());
    if (Math.min(first.norm().n(), second.norm().n()) >= LEAST_SOLOS) {
      TreeMap<String, double[]> firstByPlayer = first.valuesByPlayer();
      TreeMap<String, double[]> secondByPlayer = second.valuesByPlayer();
      List<double[]> x = List.copyOf(firstByPlayer.values());
      List<double[]> y = List.copyOf(secondByPlayer.values());
      CliffsDelta delta = CliffsDelta.ofClusters(x, y);
      HodgesLehmann shift = HodgesLehmann.ofClusters(x, y);
      row.set("cliffs_delta", delta.delta())
          .set("shift", shift.shift())
          .set("wasserstein", Wasserstein.distance(first.norm().sample(), second.norm().sample()));
      DepartureRows.interval(row, "delta", delta.interval());
      DepartureRows.interval(row, "shift", shift.interval());
      boolean byPlayer =
          Math.min(firstByPlayer.size(), secondByPlayer.size()) >= Norm.LEAST_PLAYERS
              && Collections.disjoint(firstByPlayer.keySet(), secondByPlayer.keySet());
      row.set("dealt", byPlayer ? "players" : "solos")
          .set("p_value", pValue(first, second, byPlayer));
    }
    return row.build();
  }

  /** What is dealt: the sum of its solos' mid-ranks in both groups together, and their number. */
  private record Dealt(Cluster cluster, double rankSum, int solos) {}

  private static double pValue(CorpusGroup first, CorpusGroup second, boolean byPlayer) {
    Sample all = both(first.norm().sample(), second.norm().sample());
    TreeMap<Cluster, Dealt> units = new TreeMap<>();
    for (CorpusGroup group : List.of(first, second)) {
      for (CorpusSolo solo : group.solos()) {
        if (solo.value() != null) {
          double rank = (all.countBelow(solo.value()) + 1 + all.countAtMost(solo.value())) / 2.0;
          Cluster cluster =
              new Cluster(group.value(), solo.player(), byPlayer ? "" : solo.soloId());
          units.merge(
              cluster,
              new Dealt(cluster, rank, 1),
              (a, b) -> new Dealt(cluster, a.rankSum + b.rankSum, a.solos + b.solos));
        }
      }
    }
    return PermutationTest.of(
            units.values().stream().map(Dealt::cluster).toList(),
            byPlayer ? PermutationTest.Unit.PLAYERS : PermutationTest.Unit.SOLOS,
            cliffsDelta(units.values(), all.size()),
            PermutationTest.USUAL_REPLICATES,
            Resampling.SEED)
        .pValue();
  }

  /** Delta of the solos, from the sum of the ranks of the first group: a player costs one step. */
  private static ToDoubleFunction<boolean[]> cliffsDelta(Collection<Dealt> units, int solos) {
    double[] rankSums = units.stream().mapToDouble(Dealt::rankSum).toArray();
    int[] counts = units.stream().mapToInt(Dealt::solos).toArray();
    return first -> {
      double sum = 0;
      double n = 0;
      for (int i = 0; i < counts.length; i++) {
        if (first[i]) {
          sum += rankSums[i];
          n += counts[i];
        }
      }
      return 2 * (sum - n * (n + 1) / 2) / (n * (solos - n)) - 1;
    };
  }

  private static Sample both(Sample first, Sample second) {
    double[] values = Arrays.copyOf(first.values(), first.size() + second.size());
    System.arraycopy(second.values(), 0, values, first.size(), second.size());
    return Sample.of(values);
  }
}
