package phrasecensus.comparison;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import phrasecensus.tables.StatisticDefinition;

/** Everything that is known of one statistic: its values in solos of the corpus, and in phrases. */
public final class StatisticValues {
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
  public StatisticValues(
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

  /** The same values of solos, without those of phrases and those under further rules. */
  public StatisticValues ofSolosAlone() {
    return new StatisticValues(definition, by, solos, Map.of());
  }

  public StatisticDefinition definition() {
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
        (rule, under) -> values.put(rule, new StatisticValues(definition, by, under, Map.of())));
    return values;
  }

  /** The whole corpus. */
  public CorpusGroup whole() {
    return new CorpusGroup(CorpusGroup.ALL, CorpusGroup.ALL, solos);
  }

  /** The whole corpus, then the groups of each column. */
  List<CorpusGroup> everyGroup() {
    List<CorpusGroup> every = new ArrayList<>(List.of(whole()));
    groups().values().forEach(every::addAll);
    return every;
  }

  /** The groups of each column, by column, in order of value. */
  Map<String, List<CorpusGroup>> groups() {
    Map<String, List<CorpusGroup>> groups = new TreeMap<>();
    for (int i = 0; i < by.size(); i++) {
      TreeMap<String, List<CorpusSolo>> byValue = new TreeMap<>();
      for (CorpusSolo solo : solos) {
        byValue.computeIfAbsent(solo.groupValues().get(i), value -> new ArrayList<>()).add(solo);
      }
      List<CorpusGroup> made = new ArrayList<>();
      String column = by.get(i);
      byValue.forEach((value, members) -> made.add(new CorpusGroup(column, value, members)));
      groups.put(column, made);
    }
    return groups;
  }
}
