package phrasecensus.spark;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.spark.api.java.JavaSparkContext;
import org.apache.spark.api.java.function.FlatMapFunction;
import org.apache.spark.broadcast.Broadcast;
import phrasecensus.comparison.PlainRow;
import phrasecensus.music.likeness.Attribution;
import phrasecensus.music.likeness.PlacedSolo;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;

/**
 * Asks of every solo of a corpus which player and which group the others would give it to: every
 * task has all solos, and asks about those of some players.
 */
final class AttributionJob implements Serializable {
  private static final long serialVersionUID = 1L;

  private static final String PERFORMER = "performer";
  private static final int PLAYERS_A_TASK = 8;

  private final ArrayList<Sent> solos = new ArrayList<>();
  private final String grouping;

  /** A solo as Spark can send it. */
  private record Sent(String soloId, String player, String group, double[] places)
      implements Serializable {}

  /**
   * @param solos of the corpus, in order of solo_id
   * @param grouping name of what groups them; empty for nothing
   */
  AttributionJob(List<PlacedSolo> solos, String grouping) {
    for (PlacedSolo solo : solos) {
      this.solos.add(new Sent(solo.soloId(), solo.player(), solo.group(), solo.places()));
    }
    this.grouping = grouping;
  }

  /** Rows of table {@code attributions}, without order. */
  List<TableRow> run(JavaSparkContext context) {
    Map<String, ArrayList<Integer>> byPlayer = new TreeMap<>();
    for (int i = 0; i < solos.size(); i++) {
      String player = solos.get(i).player();
      byPlayer
          .computeIfAbsent(player.isEmpty() ? "\0" + i : player, name -> new ArrayList<>())
          .add(i);
    }
    List<ArrayList<Integer>> players = List.copyOf(byPlayer.values());
    Broadcast<AttributionJob> job = context.broadcast(this);
    FlatMapFunction<Iterator<ArrayList<Integer>>, PlainRow> ask =
        some -> job.value().ask(some).iterator();
    List<TableRow> rows = new ArrayList<>();
    context
        .parallelize(players, Math.max(1, players.size() / PLAYERS_A_TASK))
        .mapPartitions(ask)
        .collect()
        .forEach(row -> rows.add(row.row()));
    job.destroy();
    return rows;
  }

  private List<PlainRow> ask(Iterator<ArrayList<Integer>> players) {
    List<PlacedSolo> all = new ArrayList<>();
    solos.forEach(
        each -> all.add(new PlacedSolo(each.soloId, each.player, each.group, each.places)));
    Attribution attribution = new Attribution(all);
    List<PlainRow> rows = new ArrayList<>();
    players.forEachRemaining(
        player -> {
          List<PlacedSolo> own = player.stream().map(all::get).toList();
          for (PlacedSolo solo : own) {
            attribution.player(solo).ifPresent(answer -> rows.add(row(PERFORMER, solo, answer, 1)));
          }
          if (!grouping.isEmpty() && !grouping.equals(PERFORMER)) {
            attribution
                .groups(own)
                .forEach((solo, answer) -> rows.add(row(grouping, solo, answer, own.size())));
          }
        });
    return rows;
  }

  private static PlainRow row(String by, PlacedSolo solo, Attribution.Answer answer, int leftOut) {
    return PlainRow.of(
        TableRow.of(TableSchemas.named("attributions"))
            .set("attributed_by", by)
            .set("solo_id", solo.soloId())
            .set("actual", answer.actual())
            .set("given", answer.given())
            .set("right", answer.isRight())
            .set("actual_place", answer.place())
            .set("candidates", answer.candidates())
            .set("distance", answer.distance())
            .set("actual_distance", answer.actualDistance())
            .set("statistics", answer.statistics())
            .set("solos_left_out", leftOut)
            .build());
  }
}
