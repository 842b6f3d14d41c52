package phrasecensus.comparison;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import phrasecensus.music.comparison.CorpusContrast;
import phrasecensus.music.comparison.GroupContrast;
import phrasecensus.music.norm.CliffsDelta;
import phrasecensus.music.norm.HodgesLehmann;
import phrasecensus.music.norm.Sample;
import phrasecensus.music.norm.Wasserstein;
import phrasecensus.tables.Grouping;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSchemas;

/** Makes rows of table {@code contrasts}, but for what depends on other statistics. */
final class ContrastRows {
  /** Smaller groups are not contrasted: six solos are the fewest with an interval of the median. */
  static final int LEAST_SOLOS = 6;

  /** Fifteen pairs a column: with more, nobody reads them and every p-value is adjusted away. */
  static final int MOST_GROUPS = 6;

  private ContrastRows() {}

  /**
   * The rows of all pairs of groups of one column.
   *
   * @param models of the statistic over the whole corpus
   */
  static List<TableRow> of(
      StatisticDefinition definition, List<CorpusGroup> groups, ComparisonModels models) {
    // By all solos, those without a value too, so that each statistic has the same pairs.
    List<CorpusGroup> chosen =
        groups.stream()
            .filter(group -> group.solos().size() >= LEAST_SOLOS)
            .filter(group -> !Grouping.isLeftover(group.value()) && !group.value().isBlank())
            .sorted(
                Comparator.comparing((CorpusGroup group) -> -group.solos().size())
                    .thenComparing(CorpusGroup::value))
            .limit(MOST_GROUPS)
            .sorted(Comparator.comparing(CorpusGroup::value))
            .toList();
    List<TableRow> rows = new ArrayList<>();
    for (int i = 0; i < chosen.size(); i++) {
      for (int j = i + 1; j < chosen.size(); j++) {
        rows.add(row(definition, chosen.get(i), chosen.get(j), models));
      }
    }
    return rows;
  }

  private static TableRow row(
      StatisticDefinition definition,
      CorpusGroup first,
      CorpusGroup second,
      ComparisonModels models) {
    TableRow.Builder row =
        TableRow.of(TableSchemas.named("contrasts"))
            .set("group_by", first.by())
            .set("first_group", first.value())
            .set("second_group", second.value())
            .set("statistic", definition.key())
            .set("facet", definition.facet())
            .set("first_n", first.norm().n())
            .set("second_n", second.norm().n())
            .set("first_players", first.units())
            .set("second_players", second.units());
    if (Math.min(first.norm().n(), second.norm().n()) >= LEAST_SOLOS) {
      Sample x = first.norm().sample();
      Sample y = second.norm().sample();
      row.set("cliffs_delta", CliffsDelta.of(x, y).delta())
          .set("shift", HodgesLehmann.shift(x, y))
          .set("wasserstein", Wasserstein.distance(x, y));
      models
          .contrast(first.by(), first.value(), second.value())
          .ifPresent(contrast -> set(row, contrast));
    }
    return row.build();
  }

  private static void set(TableRow.Builder row, CorpusContrast shown) {
    GroupContrast contrast = shown.contrast();
    row.set("difference", shown.difference())
        .set("effect", contrast.difference() / contrast.deviation())
        .set("correlation", contrast.correlation())
        .set("tempo_taken_out", shown.tempoTakenOut())
        .set("unnamed_solos", contrast.unnamed())
        .set("dealt", contrast.dealt().name().toLowerCase(Locale.ROOT).replace('_', '-'))
        .set("deals", contrast.deals());
    if (contrast.isTested()) {
      row.set("difference_low", shown.low())
          .set("difference_high", shown.high())
          .set("effect_low", contrast.low() / contrast.deviation())
          .set("effect_high", contrast.high() / contrast.deviation())
          .set("p_value", contrast.p());
    }
  }
}
