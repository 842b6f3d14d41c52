package phrasecensus.comparison;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import phrasecensus.music.norm.Norm;
import phrasecensus.music.norm.RobustUnit;
import phrasecensus.music.norm.Sample;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;

/** Makes rows of table {@code sensitivity}. */
final class SensitivityRows {
  private SensitivityRows() {}

  /**
   * The rows of one statistic in every group; none when the study asks for no further rule.
   *
   * @param ruleOfStudy the rule that the values themselves rest on
   */
  static List<TableRow> of(StatisticValues values, String ruleOfStudy) {
    List<TableRow> rows = new ArrayList<>();
    List<CorpusGroup> groups = values.everyGroup();
    values
        .underFurtherRules()
        .forEach(
            (rule, further) -> {
              Map<List<String>, CorpusGroup> byName = new HashMap<>();
              further.everyGroup().forEach(group -> byName.put(name(group), group));
              for (CorpusGroup group : groups) {
                rows.add(row(values, group, rule, byName.get(name(group)), false));
              }
            });
    if (!rows.isEmpty()) {
      groups.forEach(group -> rows.add(row(values, group, ruleOfStudy, group, true)));
    }
    return rows;
  }

  private static List<String> name(CorpusGroup group) {
    return List.of(group.by(), group.value());
  }

  private static TableRow row(
      StatisticValues values, CorpusGroup study, String rule, CorpusGroup other, boolean ofStudy) {
    Norm usual = study.norm();
    Norm norm = other.norm();
    Double shift =
        usual.p50() == null || norm.p50() == null ? null : (Double) (norm.p50() - usual.p50());
    Optional<RobustUnit> unit =
        usual.hasMiddleBand() ? RobustUnit.of(usual.sample()) : Optional.empty();
    Map<String, Double> before = new HashMap<>();
    study.solos().forEach(solo -> before.put(solo.soloId(), solo.value()));
    List<Double> changes = new ArrayList<>();
    int changed = 0;
    int definedOnce = 0;
    for (CorpusSolo solo : other.solos()) {
      Double own = before.get(solo.soloId());
      if ((own == null) != (solo.value() == null)) {
        definedOnce++;
      } else if (!Objects.equals(own, solo.value())) {
        changed++;
      }
      if (own != null && solo.value() != null) {
        changes.add(Math.abs(solo.value() - own));
      }
    }
    return TableRow.of(TableSchemas.named("sensitivity"))
        .set("group_by", study.by())
        .set("group_value", study.value())
        .set("statistic", values.definition().key())
        .set("rule", rule)
        .set("rule_of_study", ofStudy)
        .set("n", norm.n())
        .set("p25", norm.p25())
        .set("p50", norm.p50())
        .set("p75", norm.p75())
        .set("median_shift", shift)
        .set(
            "median_shift_spreads",
            shift == null || unit.isEmpty() ? null : (Double) (shift / unit.get().spread()))
        .set("typical_change", changes.isEmpty() ? null : Sample.of(changes).median())
        .set("solos_changed", changed)
        .set("solos_defined_once", definedOnce)
        .build();
  }
}
