package phrasecensus.composer.line;

import java.util.List;

/**
 * How one player differs from the style.
 *
 * @param density factor on the weight of eighths and faster cells
 * @param triplets factor on triplet cells
 * @param space factor on the silence between phrases
 * @param register semitones the line sits above the middle of the instrument
 * @param chromatic added to the log weight of outside notes
 * @param favourites names of the figures this player likes most
 */
public record Habits(
    double density,
    double triplets,
    double space,
    int register,
    double chromatic,
    List<String> favourites) {
  /** Copies the favourites in. */
  public Habits {
    favourites = List.copyOf(favourites);
  }
}
