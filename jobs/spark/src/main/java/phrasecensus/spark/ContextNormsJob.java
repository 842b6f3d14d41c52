package phrasecensus.spark;

import java.io.IOException;
import java.io.Serializable;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import org.apache.spark.api.java.function.Function;
import phrasecensus.music.norm.NormValue;
import phrasecensus.store.parquet.ColumnScan;
import phrasecensus.tables.InputFile;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;

/**
 * Builds the table {@code context_norms}: what the phrases of the corpus end on over the chords of
 * a kind of context. Each task counts the phrases of its part and sends back counts and names.
 */
final class ContextNormsJob implements Serializable {
  private static final long serialVersionUID = 1L;

  /** In place of a chord: anywhere in the context. */
  private static final String ANYWHERE = "all";

  /** A chord of a kind of context. */
  private record Place(String kind, String mode, String place)
      implements Serializable, Comparable<Place> {
    @Override
    public int compareTo(Place other) {
      int order = kind.compareTo(other.kind);
      order = order == 0 ? mode.compareTo(other.mode) : order;
      return order == 0 ? place.compareTo(other.place) : order;
    }
  }

  /** What ended there. */
  private static final class Ends implements Serializable {
    private static final long serialVersionUID = 1L;
    private final TreeMap<String, Integer> degrees = new TreeMap<>();
    private final TreeSet<String> players = new TreeSet<>();
    private int solos;
    private transient String lastSolo;

    void add(String solo, String player, String degree) {
      degrees.merge(degree, 1, Integer::sum);
      if (!solo.equals(lastSolo)) {
        lastSolo = solo;
        solos++;
        if (!player.equals(NormValue.UNKNOWN_PLAYER)) {
          players.add(player);
        }
      }
    }

    void add(Ends other) {
      other.degrees.forEach((degree, count) -> degrees.merge(degree, count, Integer::sum));
      players.addAll(other.players);
      solos += other.solos;
    }
  }

  /** The rows, without order. */
  List<TableRow> run(TableParts parts) {
    Function<TableParts.Part, TreeMap<Place, Ends>> count = ContextNormsJob::count;
    TreeMap<Place, Ends> all = new TreeMap<>();
    for (TreeMap<Place, Ends> share : parts.of(InputFile.CORPUS).map(count).collect()) {
      share.forEach((place, ends) -> all.computeIfAbsent(place, any -> new Ends()).add(ends));
    }
    List<TableRow> rows = new ArrayList<>();
    all.forEach(
        (place, ends) -> {
          int phrases = ends.degrees.values().stream().mapToInt(Integer::intValue).sum();
          ends.degrees.forEach(
              (degree, number) ->
                  rows.add(
                      TableRow.of(TableSchemas.named("context_norms"))
                          .set("kind", place.kind())
                          .set("mode", place.mode())
                          .set("place", place.place())
                          .set("degree", degree)
                          .set("phrases", number)
                          .set("all_phrases", phrases)
                          .set("solos", ends.solos)
                          .set("players", ends.players.size())
                          .set("share", (double) number / phrases)
                          .build()));
        });
    return rows;
  }

  private static TreeMap<Place, Ends> count(TableParts.Part part) throws IOException {
    Map<String, String> players = new HashMap<>();
    try (ColumnScan solos = part.scan("solos", "solo_id", "performer")) {
      for (Object[] row = solos.next(); row != null; row = solos.next()) {
        String player = ((String) row[1]).strip();
        players.put((String) row[0], player.isEmpty() ? NormValue.UNKNOWN_PLAYER : player);
      }
    }
    TreeMap<Place, Ends> found = new TreeMap<>();
    try (ColumnScan ends =
        part.scan(
            "phrase_contexts",
            "solo_id",
            "phrase_index",
            "kind",
            "mode",
            "end_place",
            "end_degree")) {
      for (Object[] row = ends.next(); row != null; row = ends.next()) {
        String degree = (String) row[5];
        if (degree != null) {
          String solo = (String) row[0];
          String player = players.getOrDefault(solo, NormValue.UNKNOWN_PLAYER);
          for (String place :
              row[4] == null ? List.of(ANYWHERE) : List.of(ANYWHERE, (String) row[4])) {
            found
                .computeIfAbsent(
                    new Place((String) row[2], (String) row[3], place), any -> new Ends())
                .add(solo, player, degree);
          }
        }
      }
    }
    return found;
  }
}
