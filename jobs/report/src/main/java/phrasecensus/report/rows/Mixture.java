package phrasecensus.report.rows;

import phrasecensus.tables.row.MixturesRow;

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
  static Mixture of(MixturesRow row) {
    return new Mixture(
        row.soloId(),
        new Group(row.groupBy(), row.groupValue()),
        row.mix(),
        row.classValue(),
        row.solos(),
        row.studentShare(),
        row.groupShare(),
        row.rank(),
        row.distance(),
        row.usualDistance());
  }
}
