package phrasecensus.report.sheet;

import java.util.List;
import phrasecensus.tables.StatisticDefinition;

/**
 * What the phrases of a sheet are to show.
 *
 * @param statistic a statistic that phrases have
 * @param from least value; null for the lower quartile of the corpus norm
 * @param to largest value; null for the upper quartile of the corpus norm
 * @param lastNote degrees over its chord of which the last note has to be one, as in {@code b3};
 *     empty for any
 * @param group metadata column that has to have {@code groupValue}; empty for the whole corpus
 * @param count at most so many phrases; positive
 */
public record SheetRequest(
    StatisticDefinition statistic,
    Double from,
    Double to,
    List<String> lastNote,
    String group,
    String groupValue,
    int count) {
  public SheetRequest {
    lastNote = List.copyOf(lastNote);
  }
}
