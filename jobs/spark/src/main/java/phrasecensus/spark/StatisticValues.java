package phrasecensus.spark;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.spark.sql.Row;
import phrasecensus.music.norm.NormValue;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;

/** Everything that is known of one statistic: its values in solos of the corpus, and in phrases. */
final class StatisticValues {
  private final StatisticDefinition definition;
  private final List<String> by;
  private final List<CorpusSolo> solos;
  private final Map<String, double[]> phrases;
  private final Map<String, List<CorpusSolo>> furtherRules;

  /**
   * @param by columns that make groups, beside the whole corpus
   * @param solos of the corpus, in any order
   * @param phrases values of phrases by solo_id, of corpus and students; empty when not asked for
   */
  StatisticValues(
      StatisticDefinition definition,
      List<String> by,
      List<CorpusSolo> solos,
      Map<String, double[]> phrases) {
    this(definition, by, solos, phrases, Map.of());
  }

  /**
   * @param furtherRules the solos again with their values under further phrase rules, by rule
   */
  StatisticValues(
      StatisticDefinition definition,
      List<String> by,
      List<CorpusSolo> solos,
      Map<String, double[]> phrases,
      Map<String, List<CorpusSolo>> furtherRules) {
    this.definition = definition;
    this.by = List.copyOf(by);
    this.solos = solos.stream().sorted(Comparator.comparing(CorpusSolo::soloId)).toList();
    this.phrases = phrases;
    this.furtherRules = furtherRules;
  }

  /**
   * Reads what Spark brought together.
   *
   * @param row statistic, and a list of: is it a phrase, further phrase rule or empty, solo_id,
   *     performer, groups, value
   */
  static StatisticValues of(Row row, List<String> by) {
    StatisticDefinition definition =
        StatisticsCatalogue.builtIn()
            .named(row.getString(0))
            .orElseThrow(() -> new IllegalStateException("Unknown statistic: " + row.getString(0)));
    List<CorpusSolo> solos = new ArrayList<>();
    Map<String, List<Double>> phrases = new HashMap<>();
    TreeMap<String, List<CorpusSolo>> furtherRules = new TreeMap<>();
    for (Row each : row.<Row>getList(1)) {
      String rule = each.getString(1);
      String soloId = each.getString(2);
      if (each.getBoolean(0)) {
        phrases.computeIfAbsent(soloId, solo -> new ArrayList<>()).add(each.getDouble(5));
      } else {
        Double value = each.isNullAt(5) ? null : (Double) each.getDouble(5);
        CorpusSolo solo =
            new CorpusSolo(soloId, new NormValue(each.getString(3), value), each.getList(4));
        (rule.isEmpty() ? solos : furtherRules.computeIfAbsent(rule, name -> new ArrayList<>()))
            .add(solo);
      }
    }
    Map<String, double[]> sorted = new HashMap<>();
    phrases.forEach(
        (solo, values) ->
            sorted.put(solo, values.stream().mapToDouble(each -> each).sorted().toArray()));
    return new StatisticValues(definition, by, solos, sorted, furtherRules);
  }

  StatisticDefinition definition() {
    return definition;
  }

  /** Values of phrases by solo_id, in ascending order. */
  Map<String, double[]> phrases() {
    return phrases;
  }

  /** The values of the same solos under further phrase rules, by rule in order of name. */
  Map<String, StatisticValues> underFurtherRules() {
    Map<String, StatisticValues> values = new TreeMap<>();
    furtherRules.forEach(
        (rule, under) ->
            values.put(rule, new StatisticValues(definition, by, under, Map.of())));
    return values;
  }

  /** The whole corpus, then the groups of each column in order. */
  List<CorpusGroup> allGroups() {
    List<CorpusGroup> all = new ArrayList<>(List.of(whole()));
    groups().values().forEach(all::addAll);
    return all;
  }

  /** The whole corpus. */
  CorpusGroup whole() {
    return new CorpusGroup(NormsJob.ALL, NormsJob.ALL, solos);
  }

  /** The groups of each column, by column, in order of value. */
  Map<String, List<CorpusGroup>> groups() {
    Map<String, List<CorpusGroup>> groups = new TreeMap<>();
    for (int i = 0; i < by.size(); i++) {
      TreeMap<String, List<CorpusSolo>> byValue = new TreeMap<>();
      for (CorpusSolo solo : solos) {
        byValue
            .computeIfAbsent(solo.groupValues().get(i), value -> new ArrayList<>())
            .add(solo);
      }
      List<CorpusGroup> made = new ArrayList<>();
      String column = by.get(i);
      byValue.forEach((value, members) -> made.add(new CorpusGroup(column, value, members)));
      groups.put(column, made);
    }
    return groups;
  }
}
