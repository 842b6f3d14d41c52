package phrasecensus.comparison;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;
import phrasecensus.music.phrase.ByMaterialRule;
import phrasecensus.music.phrase.MarkedRule;
import phrasecensus.tables.InputFile;
import phrasecensus.tables.TableRow;
import phrasecensus.tables.TableSource;

/** Says how many solos carry the marks of phrases that a study asks for. */
public final class MarkedSolos {
  private static final String STATISTIC = "notes_per_bar";

  private MarkedSolos() {}

  /** The sentence of a study by the rule of marks; empty for another rule. */
  public static List<String> ofStudy(String rule, TableSource tables) {
    if (!isMarked(rule)) {
      return List.of();
    }
    Map<Boolean, Integer> counts = new TreeMap<>(Map.of(true, 0, false, 0));
    try (Stream<TableRow> solos =
        tables.stream(
            "solos",
            List.of("solo_id", "phrase_rule_reason"),
            Map.of("role", Set.of(InputFile.CORPUS, InputFile.STUDENT)))) {
      solos.forEach(
          solo ->
              counts.merge(
                  !ByMaterialRule.Reason.NO_MARKS.word().equals(solo.text("phrase_rule_reason")),
                  1,
                  Integer::sum));
    }
    return List.of(
        sentence(rule, counts.get(true), counts.get(true) + counts.get(false))
            + (counts.get(false) == 0
                ? ""
                : " The phrases of the others are found by-material; column phrase_rule_reason of"
                    + " table solos says no-marks."));
  }

  /** A sentence a further rule of marks. */
  public static List<String> ofSensitivity(List<TableRow> sensitivity) {
    Map<String, Integer> solos = new TreeMap<>();
    int all = 0;
    for (TableRow row : sensitivity) {
      if (row.text("group_by").equals(CorpusGroup.ALL) && row.text("statistic").equals(STATISTIC)) {
        if (row.flag("rule_of_study")) {
          all = row.integer("n");
        } else if (isMarked(row.text("rule"))) {
          solos.put(row.text("rule"), row.integer("n"));
        }
      }
    }
    int whole = all;
    return solos.entrySet().stream()
        .map(
            rule ->
                sentence(rule.getKey(), rule.getValue(), whole)
                    + (rule.getValue() < whole
                        ? " Table sensitivity holds these alone under that rule."
                        : ""))
        .toList();
  }

  private static boolean isMarked(String rule) {
    return rule.equals(MarkedRule.NAME) || rule.startsWith(MarkedRule.NAME + " ");
  }

  private static String sentence(String rule, int marked, int all) {
    return "Phrase rule "
        + rule
        + ": "
        + marked
        + " of "
        + all
        + " solos carry marks of phrases (slurs, brackets, breath marks, fermatas).";
  }
}
