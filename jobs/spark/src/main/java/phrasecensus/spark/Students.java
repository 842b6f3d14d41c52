package phrasecensus.spark;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import phrasecensus.music.norm.Quantiles;
import phrasecensus.music.norm.Sample;
import phrasecensus.tables.Column;
import phrasecensus.tables.ColumnType;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;

/** Gathers the students' solos from the tables: they are few, so the driver holds them. */
final class Students {
  private Students() {}

  /** Every student solo, and for a student with more than one, all of them pooled. */
  static List<Student> in(TableSource tables) {
    Map<String, String> role = Map.of("role", InputFile.STUDENT);
    Map<String, List<TableRow>> statistics = new HashMap<>();
    for (TableRow row : tables.rows("solo_statistics", role)) {
      statistics.computeIfAbsent(row.text("solo_id"), id -> new ArrayList<>()).add(row);
    }
    Map<String, List<Student>> byStudent = new TreeMap<>();
    for (TableRow solo : tables.rows("solos", role)) {
      Map<String, String> columns = new TreeMap<>();
      for (Column column : solo.schema().columns()) {
        if (column.type() == ColumnType.STRING && !solo.isMissing(column.name())) {
          columns.put(column.name(), solo.text(column.name()));
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
                  columns,
                  values,
                  counts));
    }
    List<Student> all = new ArrayList<>();
    byStudent.forEach(
        (name, solos) -> {
          if (solos.size() > 1) {
            all.add(pooled(name, solos));
          }
          all.addAll(solos);
        });
    return all;
  }

  private static Student pooled(String name, List<Student> solos) {
    Map<String, List<Double>> values = new TreeMap<>();
    Map<String, Integer> counts = new TreeMap<>();
    Map<String, String> shared = new TreeMap<>(solos.get(0).columns());
    int phrases = 0;
    for (Student solo : solos) {
      solo.values().forEach((k, v) -> values.computeIfAbsent(k, x -> new ArrayList<>()).add(v));
      solo.counts().forEach((k, n) -> counts.merge(k, n, Integer::sum));
      for (String column : new TreeSet<>(shared.keySet())) {
        if (!shared.get(column).equals(solo.columns().get(column))) {
          shared.remove(column);
        }
      }
      phrases += solo.phrases();
    }
    Map<String, Double> medians = new TreeMap<>();
    values.forEach((key, list) -> medians.put(key, Quantiles.of(Sample.of(list), 0.5)));
    return new Student(name, Student.POOLED, "", null, phrases, shared, medians, counts);
  }
}
