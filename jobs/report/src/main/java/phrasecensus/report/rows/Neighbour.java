package phrasecensus.report.rows;

import java.util.List;
import phrasecensus.tables.row.NeighboursRow;

/**
 * One row of {@code neighbours}: a corpus solo that is like a student's.
 *
 * @param place 1 for the nearest
 * @param distance 1 is usual for two solos by one player
 * @param shared statistics that both have
 * @param drivers keys of the statistics in which the two differ most
 * @param like false where even the nearest solo lies as far as solos of different groups do
 */
public record Neighbour(
    String soloId,
    int place,
    String neighbourId,
    String performer,
    String title,
    double distance,
    int shared,
    List<String> drivers,
    boolean like) {
  public Neighbour {
    drivers = List.copyOf(drivers);
  }

  static Neighbour of(NeighboursRow row) {
    return new Neighbour(
        row.soloId(),
        row.place(),
        row.neighbourId(),
        row.performer(),
        row.title(),
        row.distance(),
        row.shared(),
        row.drivers(),
        row.alike());
  }
}
