package phrasecensus.spark;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import phrasecensus.music.norm.RobustScale;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;

/** Makes the rows of table {@code group_neighbours}: groups are few, and their medians known. */
final class GroupNeighbourRows {
  private static final int DRIVERS = 3;

  private GroupNeighbourRows() {}

  /** A group with its distance from a solo. */
  private record Near(String group, int solos, RobustScale.Distance distance) {}

  /**
   * The groups of every grouping beside every solo; a solo that shares too few statistics with a
   * group has no row for it.
   *
   * @param units middle and spread of the whole corpus by statistic
   * @param medians of the groups
   */
  static List<TableRow> of(
      List<Student> students,
      Map<String, RobustScale.Unit> units,
      List<NormsJob.GroupMedian> medians) {
    RobustScale scale = RobustScale.ofUnits(units);
    Map<NormsJob.GroupKey, Map<String, Double>> values = new HashMap<>();
    Map<NormsJob.GroupKey, Integer> solos = new HashMap<>();
    for (NormsJob.GroupMedian median : medians) {
      values
          .computeIfAbsent(median.group(), group -> new TreeMap<>())
          .put(median.statistic(), median.median());
      solos.put(median.group(), median.solos());
    }
    List<TableRow> rows = new ArrayList<>();
    for (Student student : students) {
      if (!student.scope().equals(Student.SOLO)) {
        continue;
      }
      String without = student.twins().isEmpty() ? "" : student.student();
      Map<String, List<Near>> byGrouping = new TreeMap<>();
      values.forEach(
          (group, own) -> {
            if (group.without().equals(without)) {
              scale
                  .distance(student.values(), own)
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
              rows.add(row(student, by, i + 1, near.get(i)));
            }
          });
    }
    return rows;
  }

  private static TableRow row(Student student, String by, int place, Near near) {
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
                .map(RobustScale.Driver::key)
                .toList())
        .set("greatest_difference", near.distance().drivers().get(0).difference())
        .build();
  }
}
