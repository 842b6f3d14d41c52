package phrasecensus.comparison;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import phrasecensus.music.norm.Quantiles;
import phrasecensus.music.norm.Sample;
import phrasecensus.tables.Grouping;
import phrasecensus.tables.InputFile;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;

/** Gathers the students' solos from the tables: they are few, so the driver holds them. */
public final class Students {
  private Students() {}

  /**
   * Solos of the corpus that are a student's own, by student: the same file as one of the
   * student's, or by a player of the student's name.
   *
   * @param twins solos of the corpus by a student's solo that is the same file
   */
  public static Map<String, Set<String>> ownInCorpus(
      TableSource tables, Map<String, List<String>> twins) {
    Map<String, Set<String>> own =
        sameFiles(tables.rows("solos", Map.of("role", InputFile.STUDENT)), twins);
    addSolosOfPlayers(tables, own);
    return own;
  }

  private static Map<String, Set<String>> sameFiles(
      List<TableRow> solos, Map<String, List<String>> twins) {
    Map<String, Set<String>> twinsOf = new TreeMap<>();
    for (TableRow solo : solos) {
      twinsOf
          .computeIfAbsent(solo.text("student"), name -> new TreeSet<>())
          .addAll(twins.getOrDefault(solo.text("solo_id"), List.of()));
    }
    return twinsOf;
  }

  /**
   * Every student solo, and for a student with more than one, all of them pooled.
   *
   * @param by what groups the norms
   * @param twins solos of the corpus by a student's solo that is the same file
   */
  public static List<Student> in(
      TableSource tables, List<Grouping> by, Map<String, List<String>> twins) {
    Map<String, String> role = Map.of("role", InputFile.STUDENT);
    Map<String, List<TableRow>> statistics = new HashMap<>();
    for (TableRow row : tables.rows("solo_statistics", role)) {
      statistics.computeIfAbsent(row.text("solo_id"), id -> new ArrayList<>()).add(row);
    }
    Map<String, List<Student>> byStudent = new TreeMap<>();
    List<TableRow> solos = tables.rows("solos", role);
    Map<String, Set<String>> twinsOf = sameFiles(solos, twins);
    Map<String, Integer> sameFiles = new TreeMap<>();
    twinsOf.forEach((student, own) -> sameFiles.put(student, own.size()));
    addSolosOfPlayers(tables, twinsOf);
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
                  (LocalDate) solo.value("date"),
                  solo.integer("phrases"),
                  solo.number("tempo_qpm"),
                  groups,
                  twinsOf.get(solo.text("student")),
                  sameFiles.get(solo.text("student")),
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

  /**
   * Solos of the corpus by a player who is one of the students: they would vouch for themselves.
   */
  private static void addSolosOfPlayers(TableSource tables, Map<String, Set<String>> twinsOf) {
    if (twinsOf.isEmpty()) {
      return;
    }
    try (Stream<TableRow> corpus =
        tables.stream(
            "solos", List.of("solo_id", "performer"), Map.of("role", Set.of(InputFile.CORPUS)))) {
      corpus.forEach(
          solo -> {
            Set<String> own =
                solo.isMissing("performer") ? null : twinsOf.get(solo.text("performer").strip());
            if (own != null) {
              own.add(solo.text("solo_id"));
            }
          });
    }
  }

  private static Student pooled(String name, List<Student> solos) {
    Map<String, List<Double>> values = new TreeMap<>();
    Map<String, Double> sums = new TreeMap<>();
    Map<String, Integer> counts = new TreeMap<>();
    Map<String, String> shared = new TreeMap<>(solos.get(0).groups());
    int phrases = 0;
    for (Student solo : solos) {
      solo.values().forEach((k, v) -> values.computeIfAbsent(k, x -> new ArrayList<>()).add(v));
      solo.values().forEach((k, v) -> sums.merge(k, v * solo.counts().get(k), Double::sum));
      solo.counts().forEach((k, n) -> counts.merge(k, n, Integer::sum));
      shared.entrySet().retainAll(solo.groups().entrySet());
      phrases += solo.phrases();
    }
    Map<String, Double> together = new TreeMap<>();
    values.forEach(
        (key, list) ->
            together.put(
                key,
                isShare(key)
                    ? sums.get(key) / counts.get(key)
                    : Quantiles.of(Sample.of(list), 0.5)));
    return new Student(
        name,
        Student.POOLED,
        "",
        null,
        phrases,
        null,
        shared,
        solos.get(0).twins(),
        solos.get(0).sameFiles(),
        together,
        counts);
  }

  /**
   * True where a value is a share of n things, so that those of all solos can be counted together.
   */
  static boolean isShare(String statistic) {
    return StatisticsCatalogue.builtIn()
        .named(statistic)
        .map(
            definition ->
                definition.aggregation().startsWith("share of")
                    && !definition.aggregation().startsWith("share of the time"))
        .orElse(false);
  }
}
