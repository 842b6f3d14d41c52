package phrasecensus.report.rows;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import phrasecensus.tables.Grouping;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;
import phrasecensus.tables.row.PhrasesRow;
import phrasecensus.tables.row.Role;
import phrasecensus.tables.row.SolosRow;

/**
 * What is counted while the corpus's solos and phrases pass by: nothing of it grows with the number
 * of solos, apart from the names of players and of groups.
 */
final class CorpusCounts {
  private static final Map<String, Set<String>> CORPUS =
      Map.of(SolosRow.ROLE.name(), Set.of(Role.CORPUS.word()));

  private final int mostNamed;
  private final Map<Group, OfGroup> groups = new HashMap<>();
  private int solos;

  /** A group. */
  private static final class OfGroup {
    private final PhraseLengthCounts lengths = new PhraseLengthCounts();
    private final Set<String> players = new HashSet<>();
    private List<String> soloIds = new ArrayList<>();
    private int solos;
  }

  private CorpusCounts(int mostNamed) {
    this.mostNamed = mostNamed;
  }

  /**
   * Counts the corpus.
   *
   * @param by what groups solos
   * @param mostNamed groups of no more solos remember which they are; in a corpus of so many or
   *     fewer every group does, else those with a tenth of it
   */
  static CorpusCounts of(TableSource tables, List<Grouping> by, int mostNamed) {
    CorpusCounts counts = new CorpusCounts(mostNamed);
    Set<String> columns = columns(by);
    columns.add(SolosRow.PERFORMER.name());
    try (Stream<TableRow> solos =
            tables.stream(SolosRow.TABLE.name(), List.copyOf(columns), CORPUS);
        SoloBySolo phrases =
            SoloBySolo.of(
                tables,
                PhrasesRow.TABLE,
                PhrasesRow.SOLO_ID,
                PhrasesRow.ROLE,
                List.of(PhrasesRow.LENGTH_BARS))) {
      solos.forEach(
          solo -> {
            Collection<OfGroup> groups = counts.add(solo, by);
            for (TableRow phrase : phrases.of(solo.get(SolosRow.SOLO_ID))) {
              if (phrase.get(PhrasesRow.LENGTH_BARS) != null) {
                double length = phrase.get(PhrasesRow.LENGTH_BARS);
                groups.forEach(group -> group.lengths.add(length));
              }
            }
          });
      phrases.end();
    }
    return counts;
  }

  /** The columns of table solos that tell a solo and its groups. */
  private static Set<String> columns(List<Grouping> by) {
    Set<String> columns = new TreeSet<>(Set.of(SolosRow.SOLO_ID.name()));
    by.forEach(grouping -> columns.addAll(grouping.columns()));
    return columns;
  }

  private List<OfGroup> add(TableRow solo, List<Grouping> by) {
    solos++;
    if (solos == mostNamed + 1) {
      groups.values().forEach(this::forgetMany);
    }
    String performer = solo.get(SolosRow.PERFORMER);
    List<OfGroup> own = new ArrayList<>();
    for (Group group : groups(solo, by)) {
      OfGroup counted = groups.computeIfAbsent(group, any -> new OfGroup());
      counted.solos++;
      if (!performer.isBlank()) {
        counted.players.add(performer);
      }
      if (counted.soloIds != null) {
        counted.soloIds.add(solo.get(SolosRow.SOLO_ID));
        forgetMany(counted);
      }
      own.add(counted);
    }
    return own;
  }

  private void forgetMany(OfGroup group) {
    int most = solos <= mostNamed ? mostNamed : mostNamed / 10;
    if (group.solos > most) {
      group.soloIds = null;
    }
  }

  private static List<Group> groups(TableRow solo, List<Grouping> by) {
    List<Group> groups = new ArrayList<>(List.of(Group.ALL));
    SoloFacts.groups(solo, by).forEach((name, value) -> groups.add(new Group(name, value)));
    return groups;
  }

  /**
   * Names solos of groups that lie evenly in the order of the table, by a second look at it.
   *
   * @param most how many of each group at most
   */
  Set<String> spread(TableSource tables, List<Grouping> by, Map<Group, Integer> most) {
    Map<Group, Integer> seen = new HashMap<>();
    Map<Group, Integer> taken = new HashMap<>();
    Set<String> spread = new TreeSet<>();
    try (Stream<TableRow> rows =
        tables.stream(SolosRow.TABLE.name(), List.copyOf(columns(by)), CORPUS)) {
      rows.forEach(
          solo -> {
            for (Group group : groups(solo, by)) {
              int wanted = Math.min(most.getOrDefault(group, 0), solos(group));
              int place = seen.merge(group, 1, Integer::sum) - 1;
              int next = taken.getOrDefault(group, 0);
              if (next < wanted && place == (int) ((long) next * solos(group) / wanted)) {
                taken.put(group, next + 1);
                spread.add(solo.get(SolosRow.SOLO_ID));
              }
            }
          });
    }
    return spread;
  }

  /** How many solos a group has. */
  int solos(Group group) {
    OfGroup counted = groups.get(group);
    return counted == null ? 0 : counted.solos;
  }

  /** Different named players of a group. */
  int players(Group group) {
    OfGroup counted = groups.get(group);
    return counted == null ? 0 : counted.players.size();
  }

  /** Lengths of the phrases of a group that have one in bars. */
  PhraseLengthCounts lengths(Group group) {
    OfGroup counted = groups.get(group);
    return counted == null ? new PhraseLengthCounts() : counted.lengths;
  }

  /** The groups of few solos, by solo_id. */
  Map<String, List<Group>> smallGroups() {
    Map<String, List<Group>> bySolo = new HashMap<>();
    groups.forEach(
        (group, counted) -> {
          if (counted.soloIds != null) {
            counted.soloIds.forEach(
                soloId -> bySolo.computeIfAbsent(soloId, any -> new ArrayList<>(1)).add(group));
          }
        });
    return bySolo;
  }
}
