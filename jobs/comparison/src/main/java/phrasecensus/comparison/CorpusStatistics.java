package phrasecensus.comparison;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Predicate;
import phrasecensus.music.comparison.ComparedSolo;
import phrasecensus.music.comparison.HalvedSolo;
import phrasecensus.tables.Grouping;
import phrasecensus.tables.InputException;
import phrasecensus.tables.InputFile;
import phrasecensus.tables.StatisticDefinition;
import phrasecensus.tables.StatisticsCatalogue;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;

/**
 * The compared statistics of the corpus of a finished study with those of half solos, in memory:
 * for commands that look at one corpus of hundreds of solos from all sides.
 *
 * @param solos by statistic in the order of the catalogue, each in order of solo_id
 */
public record CorpusStatistics(Map<String, List<HalvedSolo>> solos) {
  /**
   * Reads them.
   *
   * @param grouping what the solos are sorted by, as the study's {@code by} has it; empty for
   *     nothing
   * @throws InputException if the study has tables of another version of the program
   */
  public static CorpusStatistics of(TableSource tables, String grouping) {
    Grouping by = grouping.isEmpty() ? null : Grouping.parse(grouping);
    Map<String, String> corpus = Map.of("role", InputFile.CORPUS);
    Map<String, TableRow> bySolo = new TreeMap<>();
    tables.rows("solos", corpus).forEach(solo -> bySolo.put(solo.text("solo_id"), solo));
    Map<String, Map<String, HalvedSolo>> found = new HashMap<>();
    List<StatisticDefinition> compared =
        StatisticsCatalogue.builtIn().all().stream().filter(StatisticDefinition::compared).toList();
    Predicate<String> isCompared =
        key -> compared.stream().anyMatch(definition -> definition.key().equals(key));
    List<TableRow> rows = tables.rows("solo_statistics", corpus);
    if (!rows.isEmpty() && !rows.get(0).schema().has("odd_value")) {
      throw new InputException(
          "Cannot use the study: another version of the program read its files. Run 'phrase-census"
              + " study' on them again.");
    }
    for (TableRow row : rows) {
      if (!isCompared.test(row.text("statistic"))) {
        continue;
      }
      TableRow solo = bySolo.get(row.text("solo_id"));
      String group =
          by == null
              ? ""
              : by.group(column -> solo.schema().has(column) ? solo.value(column) : null);
      found
          .computeIfAbsent(row.text("statistic"), key -> new TreeMap<>())
          .put(
              row.text("solo_id"),
              new HalvedSolo(
                  new ComparedSolo(
                      row.text("solo_id"),
                      solo.isMissing("performer") ? "" : solo.text("performer").strip(),
                      Grouping.isLeftover(group) ? "" : group,
                      number(row, "value"),
                      row.integer("n"),
                      solo.integer("phrases"),
                      number(solo, "tempo_qpm")),
                  number(row, "odd_value"),
                  number(row, "even_value")));
    }
    Map<String, List<HalvedSolo>> ordered = new LinkedHashMap<>();
    for (StatisticDefinition definition : compared) {
      ordered.put(
          definition.key(),
          new ArrayList<>(found.getOrDefault(definition.key(), Map.of()).values()));
    }
    return new CorpusStatistics(ordered);
  }

  private static double number(TableRow row, String column) {
    return row.isMissing(column) ? Double.NaN : row.number(column);
  }

  /** The whole solos in one statistic. */
  public List<ComparedSolo> whole(String statistic) {
    return solos.get(statistic).stream().map(HalvedSolo::solo).toList();
  }
}
