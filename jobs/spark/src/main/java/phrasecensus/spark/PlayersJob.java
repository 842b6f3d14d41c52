package phrasecensus.spark;

import java.io.IOException;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.apache.spark.HashPartitioner;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.api.java.function.PairFlatMapFunction;
import org.apache.spark.broadcast.Broadcast;
import phrasecensus.comparison.PlayerApart;
import phrasecensus.comparison.StatisticValues;
import phrasecensus.music.comparison.HeldOutPlayer;
import phrasecensus.music.comparison.ShippedTable;
import phrasecensus.tables.InputFile;
import phrasecensus.tables.StatisticDefinition;
import scala.Tuple2;

/**
 * Holds every player of the corpus against all the others: the values of a statistic meet in one
 * task, as for the norms, and one small result a player comes back.
 */
final class PlayersJob implements Serializable {
  private static final long serialVersionUID = 1L;

  private static final int TASKS = 4;

  /** One player in one statistic; what {@link HeldOutPlayer} found, as Spark can send it. */
  private record Found(
      String player,
      String statistic,
      int solos,
      int outside,
      double expected,
      double value,
      double others,
      Double strength,
      int side,
      Double pValue)
      implements Serializable {}

  /** The players, in order of name. */
  List<PlayerApart> run(TableParts parts) {
    Broadcast<PlayersJob> job = parts.broadcast(this);
    PairFlatMapFunction<TableParts.Part, Integer, StatisticShare> shares =
        part -> job.value().shares(part);
    FlatMapFunction<Iterator<Tuple2<Integer, StatisticShare>>, Found> meet =
        met -> job.value().meet(met).iterator();
    List<Found> found =
        parts
            .of(InputFile.CORPUS)
            .flatMapToPair(shares)
            .partitionBy(new HashPartitioner(TASKS))
            .mapPartitions(meet)
            .collect();
    job.destroy();
    Map<String, List<PlayerApart.Statistic>> byPlayer = new TreeMap<>();
    found.stream()
        .sorted(Comparator.comparing(Found::statistic))
        .forEach(
            each ->
                byPlayer
                    .computeIfAbsent(each.player, name -> new ArrayList<>())
                    .add(
                        new PlayerApart.Statistic(
                            each.statistic,
                            each.solos,
                            each.outside,
                            each.expected,
                            each.value,
                            each.others,
                            each.strength,
                            each.side,
                            each.pValue)));
    List<PlayerApart> players = new ArrayList<>();
    byPlayer.forEach((name, statistics) -> players.add(new PlayerApart(name, statistics)));
    return players;
  }

  private Iterator<Tuple2<Integer, StatisticShare>> shares(TableParts.Part part)
      throws IOException {
    List<StatisticShare> shares = StatisticShare.of(part, List.of(), Set.of(), false, TASKS);
    List<Tuple2<Integer, StatisticShare>> numbered = new ArrayList<>();
    for (int i = 0; i < TASKS; i++) {
      numbered.add(new Tuple2<>(i, shares.get(i)));
    }
    return numbered.iterator();
  }

  private List<Found> meet(Iterator<Tuple2<Integer, StatisticShare>> met) {
    List<StatisticShare> shares = new ArrayList<>();
    met.forEachRemaining(each -> shares.add(each._2()));
    List<Found> found = new ArrayList<>();
    for (String statistic : StatisticShare.statistics(shares)) {
      StatisticValues values = StatisticShare.values(statistic, List.of(), shares);
      StatisticDefinition definition = values.definition();
      if (!definition.compared()) {
        continue;
      }
      for (HeldOutPlayer each :
          HeldOutPlayer.each(
              ShippedTable.builtIn().of(definition.key()).orElseThrow(),
              values.whole().solos().stream().map(solo -> solo.compared(-1)).toList())) {
        found.add(
            new Found(
                each.player(),
                definition.key(),
                each.solos(),
                each.below() + each.above(),
                each.expectedShare(),
                each.value(),
                each.others(),
                each.strength(),
                each.side(),
                each.pValue()));
      }
    }
    return found;
  }
}
