package phrasecensus.spark;

import java.io.IOException;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.apache.spark.HashPartitioner;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.api.java.function.PairFlatMapFunction;
import org.apache.spark.broadcast.Broadcast;
import phrasecensus.comparison.Comparison;
import phrasecensus.comparison.ComparisonResult;
import phrasecensus.comparison.StatisticFindings;
import phrasecensus.comparison.StatisticValues;
import phrasecensus.tables.Grouping;
import scala.Tuple2;

/**
 * Brings all values of a statistic together once from the tables of reading; where they are, a
 * {@link Comparison} makes norms, contrasts and departures of them. Only the finished rows, which
 * are few, come to the driver.
 */
final class NormsJob implements Serializable {
  private static final long serialVersionUID = 1L;

  private static final int LEAST_TASKS = 4;

  /**
   * So that what a task holds at once stays at some tens of megabytes, however large the corpus.
   */
  private static final long ROWS_A_TASK = 3_000_000;

  private final Comparison comparison;

  NormsJob(Comparison comparison) {
    this.comparison = comparison;
  }

  /**
   * @param parts of the tables of reading
   * @param rows rows of the tables of statistics, to choose how many tasks share them
   */
  ComparisonResult run(TableParts parts, long rows) {
    int tasks = (int) Math.max(LEAST_TASKS, rows / ROWS_A_TASK);
    Broadcast<NormsJob> job = parts.broadcast(this);
    PairFlatMapFunction<TableParts.Part, Integer, StatisticShare> shares =
        part -> job.value().shares(part, tasks);
    FlatMapFunction<Iterator<Tuple2<Integer, StatisticShare>>, StatisticFindings> finish =
        met -> job.value().finish(met);
    List<StatisticFindings> all =
        parts
            .all()
            .flatMapToPair(shares)
            .partitionBy(new HashPartitioner(tasks))
            .mapPartitions(finish)
            .collect();
    job.destroy();
    return ComparisonResult.of(all);
  }

  private Iterator<Tuple2<Integer, StatisticShare>> shares(TableParts.Part part, int tasks)
      throws IOException {
    List<StatisticShare> shares =
        StatisticShare.of(
            part, comparison.by(), comparison.ofPhrases(), comparison.withSensitivity(), tasks);
    List<Tuple2<Integer, StatisticShare>> numbered = new ArrayList<>();
    for (int i = 0; i < tasks; i++) {
      numbered.add(new Tuple2<>(i, shares.get(i)));
    }
    return numbered.iterator();
  }

  private Iterator<StatisticFindings> finish(Iterator<Tuple2<Integer, StatisticShare>> met) {
    List<StatisticShare> shares = new ArrayList<>();
    met.forEachRemaining(each -> shares.add(each._2()));
    List<String> groupings = comparison.by().stream().map(Grouping::name).toList();
    Set<String> ofMixes = comparison.classesOfMixes();
    Map<String, StatisticValues> values = new TreeMap<>();
    List<StatisticFindings> finished = new ArrayList<>();
    for (String statistic : StatisticShare.statistics(shares)) {
      // One after the other: the values of all of them at once would be most of what a task holds.
      StatisticValues each = StatisticShare.values(statistic, groupings, shares);
      StatisticShare.forget(statistic, shares);
      finished.add(comparison.of(each));
      if (ofMixes.contains(statistic)) {
        values.put(statistic, each.ofSolosAlone());
      }
    }
    finished.addAll(comparison.ofMixes(values));
    return finished.iterator();
  }
}
