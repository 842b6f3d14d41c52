package phrasecensus.comparison;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import phrasecensus.tables.InputFile;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;

/** The students' phrases, which are few, in the driver. */
final class StudentPhrases {
  private final Map<String, Map<String, List<PhraseValue>>> byStatisticAndSolo = new HashMap<>();

  private StudentPhrases() {}

  /** Reads the phrases and their values of some statistics. */
  static StudentPhrases in(TableSource tables, Set<String> statistics) {
    Map<String, String> role = Map.of("role", InputFile.STUDENT);
    Map<String, Map<Integer, PhraseValue.Place>> places = new HashMap<>();
    for (TableRow row : tables.rows("phrases", role)) {
      places
          .computeIfAbsent(row.text("solo_id"), solo -> new HashMap<>())
          .put(
              row.integer("phrase_index"),
              PhraseValue.Place.of(
                  row.text("solo_id"),
                  row.integer("phrase_index"),
                  row.integer("last_note_index") - row.integer("first_note_index") + 1,
                  row.number("tempo_qpm"),
                  row.number("length_bars"),
                  row.texts("chord_qualities")));
    }
    StudentPhrases phrases = new StudentPhrases();
    for (TableRow row : tables.rows("phrase_statistics", role)) {
      String statistic = row.text("statistic");
      if (statistics.contains(statistic) && !row.isMissing("value")) {
        String solo = row.text("solo_id");
        phrases
            .byStatisticAndSolo
            .computeIfAbsent(statistic, key -> new HashMap<>())
            .computeIfAbsent(solo, id -> new ArrayList<>())
            .add(
                new PhraseValue(
                    places.get(solo).get(row.integer("phrase_index")),
                    row.number("value"),
                    row.integer("n")));
      }
    }
    return phrases;
  }

  /** The phrases of some solos that have a value of a statistic. */
  List<PhraseValue> of(String statistic, List<String> soloIds) {
    Map<String, List<PhraseValue>> bySolo = byStatisticAndSolo.getOrDefault(statistic, Map.of());
    return soloIds.stream().flatMap(solo -> bySolo.getOrDefault(solo, List.of()).stream()).toList();
  }
}
