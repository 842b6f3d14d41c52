package phrasecensus.report.rows;

import java.util.List;
import phrasecensus.tables.TableRow;

/**
 * One row of {@code neighbours}: a corpus solo that is like a student's.
 *
 * @param place 1 for the nearest
 * @param distance mean difference in robust standard deviations of the corpus
 * @param shared statistics that both have
 * @param drivers keys of the statistics in which the two differ most
 */
public record Neighbour(
    String soloId,
    int place,
    String neighbourId,
    String performer,
    String title,
    double distance,
    int shared,
    List<String> drivers) {
  public Neighbour {
    drivers = List.copyOf(drivers);
  }

  static Neighbour of(TableRow row) {
    return new Neighbour(
        row.text("solo_id"),
        row.integer("place"),
        row.text("neighbour_id"),
        row.text("performer"),
        row.text("title"),
        row.number("distance"),
        row.integer("shared"),
        row.texts("drivers"));
  }
}
