package phrasecensus.report.find;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import phrasecensus.report.rows.SoloFacts;
import phrasecensus.report.sheet.SheetPhrase;
import phrasecensus.tables.TableSource;
import phrasecensus.tables.row.SolosRow;

/**
 * A phrase that has all that was asked for.
 *
 * @param title of the solo, as in its table
 * @param performer as in its table
 * @param firstBar number of its first bar as the file has it
 * @param lastBar number of the bar in which its last note starts
 * @param lastDegree degree of its last note over its chord; null when there is none
 * @param contexts harmonic contexts that it lies over, as in {@code ii-V-I major}, each once
 * @param values the numbers that were asked for, by name
 */
public record FoundPhrase(
    String soloId,
    String file,
    String title,
    String performer,
    int phraseIndex,
    String firstBar,
    String lastBar,
    String lastDegree,
    int difficulty,
    List<String> contexts,
    Map<String, Double> values) {

  /** Found phrases as those of a sheet, in the same order. */
  public static List<SheetPhrase> forSheet(TableSource tables, List<FoundPhrase> found) {
    Set<String> soloIds = new TreeSet<>();
    found.forEach(each -> soloIds.add(each.soloId()));
    Map<String, SoloFacts> facts = new HashMap<>();
    tables.tableRows(SolosRow.TABLE, SolosRow.SOLO_ID.isOneOf(soloIds)).stream()
        .map(SoloFacts::of)
        .forEach(solo -> facts.put(solo.soloId(), solo));
    return found.stream()
        .map(
            each ->
                new SheetPhrase(
                    facts.get(each.soloId()), each.phraseIndex(), Double.NaN, each.lastDegree()))
        .toList();
  }
}
