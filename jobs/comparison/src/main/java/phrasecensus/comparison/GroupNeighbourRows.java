package phrasecensus.comparison;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import phrasecensus.music.likeness.LikenessSpace;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;

/** Makes the rows of table {@code group_neighbours}: groups are few, and their means known. */
public final class GroupNeighbourRows {
  private static final int DRIVERS = 3;

  private GroupNeighbourRows() {}

  /** A group with its distance from a solo. */
  private record Near(String group, int solos, LikenessSpace.Distance distance) {}

  /**
   * The groups of every grouping beside every solo; a solo that shares too few statistics with a
   * group has no row for it.
   *
   * @param statistics compared ones, in the order of the space
   * @param space of the corpus; null where too few solos differ
   * @param grouping name of the study's first; empty for none
   * @param means of the groups
   */
  public static List<TableRow> of(
      List<Student> students,
      List<StatisticPlaces> statistics,
      LikenessSpace space,
      String grouping,
      List<GroupMean> means) {
    if (space == null) {
      return List.of();
    }
    Map<String, Integer> order = new HashMap<>();
    statistics.forEach(each -> order.put(each.statistic(), order.size()));
    Map<GroupKey, double[]> values = new HashMap<>();
    Map<GroupKey, Integer> solos = new HashMap<>();
    for (GroupMean mean : means) {
      values
              .computeIfAbsent(
                  mean.group(),
                  group -> {
                    double[] none = new double[statistics.size()];
                    Arrays.fill(none, Double.NaN);
                    return none;
                  })[order.get(mean.statistic())] =
          mean.mean();
      solos.put(mean.group(), mean.solos());
    }
    List<TableRow> rows = new ArrayList<>();
    for (Student student : students) {
      if (!student.scope().equals(Student.SOLO)) {
        continue;
      }
      String without = student.twins().isEmpty() ? "" : student.student();
      double[] places = StatisticPlaces.of(student, statistics, grouping);
      Map<String, List<Near>> byGrouping = new TreeMap<>();
      values.forEach(
          (group, own) -> {
            if (group.without().equals(without)) {
              space
                  .fromMean(places, own)
                  .ifPresent(
                      distance ->
                          byGrouping
                              .computeIfAbsent(group.by(), by -> new ArrayList<>())
                              .add(new Near(group.value(), solos.get(group), distance)));
            }
          });
      byGrouping.forEach(
          (by, near) -> {
            near.sort(
                Comparator.comparingDouble((Near each) -> each.distance().value())
                    .thenComparing(Near::group));
            for (int i = 0; i < near.size(); i++) {
              rows.add(row(student, by, i + 1, near.get(i), statistics));
            }
          });
    }
    return rows;
  }

  private static TableRow row(
      Student student, String by, int place, Near near, List<StatisticPlaces> statistics) {
    return TableRow.of(TableSchemas.named("group_neighbours"))
        .set("student", student.student())
        .set("solo_id", student.soloId())
        .set("group_by", by)
        .set("place", place)
        .set("group_value", near.group())
        .set("solos", near.solos())
        .set("distance", near.distance().value())
        .set("shared", near.distance().shared())
        .set(
            "drivers",
            near.distance().drivers().stream()
                .limit(DRIVERS)
                .map(driver -> statistics.get(driver.statistic()).statistic())
                .toList())
        .set("greatest_difference", near.distance().drivers().get(0).difference())
        .build();
  }
}
