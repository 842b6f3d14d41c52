package phrasecensus.report.rows;

import phrasecensus.tables.TableRow;

/**
 * One row of {@code mixtures}: one share of a mix of a student beside the average of a group.
 *
 * @param soloId the solo; empty for all together
 * @param mix key in the catalogue's list of mixes
 * @param part key of the share in the catalogue
 * @param solos of the group with such a mix
 * @param rank 1 for the share that adds most to the distance
 * @param distance Jensen-Shannon distance of the whole mix, from 0 to 1
 * @param usualDistance of a solo of the group from the others' average; null below eleven solos
 */
public record Mixture(
    String soloId,
    Group group,
    String mix,
    String part,
    int solos,
    double studentShare,
    double groupShare,
    int rank,
    double distance,
    Double usualDistance) {
  static Mixture of(TableRow row) {
    return new Mixture(
        row.text("solo_id"),
        new Group(row.text("group_by"), row.text("group_value")),
        row.text("mix"),
        row.text("class"),
        row.integer("solos"),
        row.number("student_share"),
        row.number("group_share"),
        row.integer("rank"),
        row.number("distance"),
        row.number("usual_distance"));
  }
}
