package phrasecensus.report.rows;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import phrasecensus.tables.Column;
import phrasecensus.tables.Grouping;
import phrasecensus.tables.MetadataColumns;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.row.SolosRow;

/**
 * One row of {@code solos}.
 *
 * @param student null for a corpus solo
 * @param date as in 2026-03-14; null when not given
 * @param tempo quarter notes a minute; null when the score has none
 * @param keyFifths first key signature at concert pitch, sharps positive; null when none
 * @param centreTonic 0 (C) to 11, sounding; null when unknown
 * @param columns every column that holds words or that metadata added, with its value in words, by
 *     which solos can be grouped
 * @param groups of the solo, by name of the study's groupings
 */
public record SoloFacts(
    String soloId,
    String file,
    String student,
    String date,
    String title,
    String performer,
    String instrument,
    String metre,
    Double tempo,
    Integer keyFifths,
    Integer centreTonic,
    String centreMode,
    int bars,
    int notes,
    int phrases,
    Map<String, String> columns,
    Map<String, String> groups) {

  /** Reads a row of {@code solos} of a study without groups. */
  public static SoloFacts of(TableRow row) {
    return of(row, List.of());
  }

  /** Reads a row of {@code solos}. */
  static SoloFacts of(TableRow row, List<Grouping> by) {
    Map<String, String> columns = new LinkedHashMap<>();
    for (Column column : row.schema().columns()) {
      if (MetadataColumns.isInWords(column)) {
        String text = row.words(column.name());
        columns.put(column.name(), text == null ? "" : text);
      }
    }
    return new SoloFacts(
        row.get(SolosRow.SOLO_ID),
        row.get(SolosRow.FILE),
        row.get(SolosRow.STUDENT),
        row.words(SolosRow.DATE.name()),
        row.get(SolosRow.TITLE),
        row.get(SolosRow.PERFORMER),
        row.get(SolosRow.INSTRUMENT),
        row.get(SolosRow.METRE),
        row.get(SolosRow.TEMPO_QPM),
        row.get(SolosRow.KEY_FIFTHS),
        row.get(SolosRow.CENTRE_TONIC_PC),
        row.get(SolosRow.CENTRE_MODE).word(),
        row.get(SolosRow.BARS),
        row.get(SolosRow.NOTES),
        row.get(SolosRow.PHRASES),
        java.util.Collections.unmodifiableMap(columns),
        groups(row, by));
  }

  /** True when the solo belongs to the group. */
  public boolean belongsTo(Group group) {
    if (group.isWholeCorpus()) {
      return true;
    }
    return group.value().equals(groups.get(group.by()));
  }

  /** The group of a row of {@code solos} by name of each grouping. */
  static Map<String, String> groups(TableRow row, List<Grouping> by) {
    Map<String, String> groups = new HashMap<>();
    for (Grouping grouping : by) {
      groups.put(
          grouping.name(),
          grouping.group(column -> row.schema().has(column) ? row.value(column) : null));
    }
    return Map.copyOf(groups);
  }
}
