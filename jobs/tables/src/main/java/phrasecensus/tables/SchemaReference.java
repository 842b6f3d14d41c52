package phrasecensus.tables;

import java.util.List;

/**
 * The tables and the statistics in Markdown, made from their JSON files: {@code schemas/README.md}.
 */
public final class SchemaReference {
  private SchemaReference() {}

  /** The whole page. */
  public static String markdown() {
    StringBuilder text = new StringBuilder();
    text.append(
        """
        # Tables and statistics

        Made from the JSON files of this folder, which are the only place where columns and statistics
        are defined; `mvn test -pl jobs/tables -Dgolden.update=true` writes it anew. Times are exact:
        `_num` over `_den`, in quarter notes from the start of the solo as written (its first bar or
        pickup starts at 0). A column of type *text?* and the like may be empty.

        A robust standard deviation is the interquartile range, type 8, over 1.349; where that is 0 the
        median absolute deviation times 1.4826, where that is 0 too the whole range.

        When a schema changes, its `version` goes up and a line here says what was added, renamed or
        given another meaning. All are at their first version, but where said.

        - `solos` 2: added `chorus_bars`, `chorus_source`.
        - `bars` 2: added `chorus`, `bar_in_chorus`, `bar_in_section`, key, clef, repeats and endings.
        - `landings` 2: added `next_guide_tone_reached`.
        - New: `patterns`, `pattern_recurrence`, `solo_patterns`, made on request.
        - New: `phrase_norms`.
        - New: `attributions`, made on request.
        - `neighbours`, `group_neighbours` 2: `distance` is whitened by how solos of one player vary,
          tempo taken out; `neighbours` has `unlike_distance`, `alike` and `whitened_about`.
        - `norms` 2: added `mean_low`, `mean_high`, `design_effect`.
        - `departures` 2: added `p_value`, `p_adjusted`, `tests`, `cliffs_delta`, `delta_low`,
          `delta_high`, `shift`, `shift_low`, `shift_high`, `wasserstein`; in `place` a facet goes first
          only with a strength of at least 0.5.
        - `departures` 3: added `reference`, `reference_reason`, `left_out`.
        - `solo_statistics` 2: added `odd_value`, `even_value`.
        - `contrasts` 2: added `difference` and `effect` with their intervals, `correlation`,
          `tempo_taken_out`, `unnamed_solos`, `deals`; `p_value` is that of `difference`; `dealt` has
          other words.
        - `sensitivity` 2: `solos_changed` counts values that both rules define; added
          `solos_defined_once`.
        - `norms` 3: added `phrases_for_half`, `reliability_source`.
        - `departures` 4: made by another model, tempo taken out. `position` and `reference_reason` are
          vocabularies, `verdict` has other words, the group of reference is that of the first column,
          `value` over all solos is their mean on the scale; dropped `departure` and `strength`; added
          band, interval, level, family, question, reliability and counts.
        - `departures` 5: added `norm_unnamed`; `delta_low` to `shift_high` are told only where the verdict
          is described, so that no verdict has two intervals.
        - `contrasts` 3: dropped `shift_low`, `shift_high`, `delta_low`, `delta_high`, for which the
          intervals of `difference` and `effect` stand; solos without a player's name count one by one.
        - `contrasts` 4: `p_value` and intervals rest on players made equally sure before they are dealt;
          `deals` is 0 where there is no test.
        - `phrases` 2: added `tempo_qpm`, `chord_qualities` and, for its first and last note, chorus,
          section and the bar in them.
        - `solos` 5, `answers` 2, `departures` 6, `trends` 2: dates are dates, no longer text. In `solos`
          the columns of the metadata have types.
        - New: `aims`, `answers`.
        - New: `contexts`, `phrase_contexts`, `context_norms`. `phrases` 3: added
          `lowest_midi_concert`, `highest_midi_concert`, `difficulty`.
        - `notes` 2: added `in_key`, `stretch_index`, `resting`, `resting_degree`,
          `resting_on_chord_tone`.
        - New: `figures`, `figure_places`, made on request.
        - `solos` 4: added `phrase_rule`, `phrase_rule_reason`.
        - `solos` 3: added `centre_scale`, `centre_source`. `tonal_centres` 2: added `scale`; `source`
          may be `signature`.
        - Catalogue of statistics 2: added `counted`, `in_key_share`, `resting_chord_tone_share`,
          `eighth_or_shorter_share`, `unbroken_time_share`, `scrap_time_share`, `longest_stretch_bars`,
          `short_stretch_share`.

        ## Tables
        """);
    for (TableSchema schema : TableSchemas.all()) {
      text.append("\n### ").append(schema.table()).append("\n\n");
      text.append("One row: ").append(schema.row()).append(". Key: `");
      text.append(String.join("`, `", schema.key())).append("`. Version ");
      text.append(schema.version()).append(".\n\n");
      text.append("| column | type | unit | meaning | example |\n|---|---|---|---|---|\n");
      for (Column column : schema.columns()) {
        row(
            text,
            List.of(
                "`" + column.name() + "`",
                type(column),
                column.unit() == null ? "" : column.unit(),
                column.description(),
                column.example()));
      }
      if (schema.isOpenForMetadata()) {
        text.append(
            """

            Further columns: every other column of the metadata file, of the type that
            the study declares, or that all its cells have: text, whole number of 64 bits, number, date.
            """);
      }
    }
    StatisticsCatalogue catalogue = StatisticsCatalogue.builtIn();
    text.append("\n## Statistics\n\nCatalogue version ").append(catalogue.version()).append(".\n");
    text.append(
        "\n### mixes\n\nShares that make a whole.\n\n| key | name | classes |\n|---|---|---|\n");
    for (MixDefinition mix : catalogue.mixes()) {
      row(
          text,
          List.of(
              "`" + mix.key() + "`", mix.name(), "`" + String.join("`, `", mix.classes()) + "`"));
    }
    for (String facet : List.of("harmony", "movement", "phrasing", "line")) {
      text.append("\n### ").append(facet).append("\n\n");
      text.append("| key | name | unit | formula | a solo's value | undefined | source |\n");
      text.append("|---|---|---|---|---|---|---|\n");
      for (StatisticDefinition d : catalogue.all()) {
        if (d.facet().equals(facet)) {
          row(
              text,
              List.of(
                  "`" + d.key() + "`",
                  d.name(),
                  d.unit(),
                  d.formula(),
                  d.aggregation(),
                  d.undefined(),
                  d.source()));
        }
      }
    }
    return text.toString();
  }

  private static String type(Column column) {
    String type =
        switch (column.type()) {
          case STRING -> "text";
          case INTEGER -> "whole number";
          case LONG -> "whole number, 64 bits";
          case DOUBLE -> "number";
          case BOOLEAN -> "yes or no";
          case DATE -> "date";
          case STRING_ARRAY -> "list of texts";
          case INTEGER_ARRAY -> "list of whole numbers";
        };
    return column.nullable() ? type + "?" : type;
  }

  private static void row(StringBuilder text, List<String> cells) {
    text.append('|');
    for (String cell : cells) {
      text.append(' ').append(cell.replace("|", "\\|").replace("\n", " ")).append(" |");
    }
    text.append('\n');
  }
}
