package phrasecensus.composer.cast;

import phrasecensus.composer.line.Departure;
import phrasecensus.composer.line.Improviser;
import phrasecensus.composer.line.Solo;
import phrasecensus.composer.line.Style;
import phrasecensus.composer.score.Dialect;
import phrasecensus.composer.score.Sheet;
import phrasecensus.composer.tune.Tune;

/**
 * One solo to write.
 *
 * @param file path under the sample corpus, with {@code /}
 * @param player who plays
 * @param style how
 * @param tune what
 * @param choruses how often
 * @param tempo quarter notes per minute
 * @param dialect how the file is written
 * @param departure a student's known departure
 * @param date ISO date of a student's solo, empty for the corpus
 * @param seed seed of this solo alone
 */
public record Commission(
    String file,
    Player player,
    Style style,
    Tune tune,
    int choruses,
    int tempo,
    Dialect dialect,
    Departure departure,
    String date,
    long seed) {
  /** Composes it. */
  public Solo solo() {
    return new Improviser(
            tune,
            choruses,
            tempo,
            style,
            player.habits(),
            player.instrument().compass(),
            departure,
            seed)
        .solo();
  }

  /** Composes it and adds what the title page says. */
  public Sheet sheet() {
    return new Sheet(solo(), player, style.name(), date);
  }
}
