package phrasecensus.spark;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import phrasecensus.music.norm.Quantiles;
import phrasecensus.music.norm.Sample;
import phrasecensus.tables.Grouping;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;

/** Gathers the students' solos from the tables: they are few, so the driver holds them. */
final class Students {
  private Students() {}

  /**
   * Every student solo, and for a student with more than one, all of them pooled.
   *
   * @param by what groups the norms
   * @param twins solos of the corpus by a student's solo that is the same file
   */
  static List<Student> in(
      TableSource tables, List<Grouping> by, Map<String, List<String>> twins) {
    Map<String, String> role = Map.of("role", InputFile.STUDENT);
    Map<String, List<TableRow>> statistics = new HashMap<>();
    for (TableRow row : tables.rows("solo_statistics", role)) {
      statistics.computeIfAbsent(row.text("solo_id"), id -> new ArrayList<>()).add(row);
    }
    Map<String, List<Student>> byStudent = new TreeMap<>();
    List<TableRow> solos = tables.rows("solos", role);
    Map<String, Set<String>> twinsOf = new TreeMap<>();
    for (TableRow solo : solos) {
      twinsOf
          .computeIfAbsent(solo.text("student"), name -> new TreeSet<>())
          .addAll(twins.getOrDefault(solo.text("solo_id"), List.of()));
    }
    for (TableRow solo : solos) {
      Map<String, String> groups = new TreeMap<>();
      for (Grouping grouping : by) {
        String group =
            grouping.group(column -> solo.schema().has(column) ? solo.value(column) : null);
        if (!Grouping.isLeftover(group)) {
          groups.put(grouping.name(), group);
        }
      }
      Map<String, Double> values = new TreeMap<>();
      Map<String, Integer> counts = new TreeMap<>();
      for (TableRow row : statistics.getOrDefault(solo.text("solo_id"), List.of())) {
        if (!row.isMissing("value")) {
          values.put(row.text("statistic"), row.number("value"));
        }
        counts.put(row.text("statistic"), row.integer("n"));
      }
      byStudent
          .computeIfAbsent(solo.text("student"), name -> new ArrayList<>())
          .add(
              new Student(
                  solo.text("student"),
                  Student.SOLO,
                  solo.text("solo_id"),
                  solo.text("date"),
                  solo.integer("phrases"),
                  groups,
                  twinsOf.get(solo.text("student")),
                  values,
                  counts));
    }
    List<Student> all = new ArrayList<>();
    byStudent.forEach(
        (name, own) -> {
          if (own.size() > 1) {
            all.add(pooled(name, own));
          }
          all.addAll(own);
        });
    return all;
  }

  private static Student pooled(String name, List<Student> solos) {
    Map<String, List<Double>> values = new TreeMap<>();
    Map<String, Integer> counts = new TreeMap<>();
    Map<String, String> shared = new TreeMap<>(solos.get(0).groups());
    int phrases = 0;
    for (Student solo : solos) {
      solo.values().forEach((k, v) -> values.computeIfAbsent(k, x -> new ArrayList<>()).add(v));
      solo.counts().forEach((k, n) -> counts.merge(k, n, Integer::sum));
      shared.entrySet().retainAll(solo.groups().entrySet());
      phrases += solo.phrases();
    }
    Map<String, Double> medians = new TreeMap<>();
    values.forEach((key, list) -> medians.put(key, Quantiles.of(Sample.of(list), 0.5)));
    return new Student(
        name,
        Student.POOLED,
        "",
        null,
        phrases,
        shared,
        solos.get(0).twins(),
        medians,
        counts);
  }
}
