package phrasecensus.composer.score;

import phrasecensus.composer.cast.Player;
import phrasecensus.composer.line.Solo;

/**
 * A solo with what the title page says.
 *
 * @param solo the solo
 * @param player who plays it
 * @param style name of the style
 * @param date ISO date for a student's solo, empty for none
 */
public record Sheet(Solo solo, Player player, String style, String date) {}
