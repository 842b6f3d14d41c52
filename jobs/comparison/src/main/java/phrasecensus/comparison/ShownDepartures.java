package phrasecensus.comparison;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import phrasecensus.music.norm.RobustUnit;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;

/** The departures that phrases are to show, with the student's phrases that show them. */
public record ShownDepartures(List<ShownDeparture> departures, List<TableRow> rows) {

  /**
   * @param ranked rows of table departures with their places
   * @param units middle and spread by group and statistic
   * @param tables where the students' phrases are
   */
  public static ShownDepartures of(
      List<TableRow> ranked,
      List<Student> students,
      Map<GroupKey, Map<String, RobustUnit>> units,
      TableSource tables) {
    Map<TableRow, StatisticDefinition.Ingredient> chosen = new LinkedHashMap<>();
    TreeSet<String> statistics = new TreeSet<>();
    for (TableRow row : ranked) {
      if (!row.isMissing("place") && row.integer("place") <= ShownDeparture.LAST_PLACE) {
        StatisticsCatalogue.builtIn()
            .named(row.text("statistic"))
            .flatMap(StatisticDefinition::visibleIn)
            .ifPresent(
                visible -> {
                  chosen.put(row, visible);
                  statistics.add(visible.statistic());
                });
      }
    }
    List<ShownDeparture> departures = new ArrayList<>();
    List<TableRow> rows = new ArrayList<>();
    if (chosen.isEmpty()) {
      return new ShownDepartures(departures, rows);
    }
    Map<String, List<String>> solos = new HashMap<>();
    Map<String, Set<String>> twins = new HashMap<>();
    for (Student student : students) {
      twins.put(student.student(), student.twins());
      if (student.scope().equals(Student.SOLO)) {
        solos.computeIfAbsent(student.student(), name -> new ArrayList<>()).add(student.soloId());
      }
    }
    StudentPhrases phrases = StudentPhrases.in(tables, statistics);
    chosen.forEach(
        (row, visible) -> {
          Set<String> own = twins.get(row.text("student"));
          GroupKey group =
              new GroupKey(
                  row.text("group_by"),
                  row.text("group_value"),
                  own.isEmpty() ? "" : row.text("student"));
          RobustUnit unit = units.getOrDefault(group, Map.of()).get(visible.statistic());
          List<String> soloIds =
              row.text("scope").equals(Student.POOLED)
                  ? solos.get(row.text("student"))
                  : List.of(row.text("solo_id"));
          Optional<ShownDeparture.WithRows> shown =
              unit == null
                  ? Optional.empty()
                  : ShownDeparture.of(
                      row, visible, unit, phrases.of(visible.statistic(), soloIds), own);
          shown.ifPresent(
              each -> {
                departures.add(each.departure());
                rows.addAll(each.rows());
              });
        });
    return new ShownDepartures(departures, rows);
  }
}
