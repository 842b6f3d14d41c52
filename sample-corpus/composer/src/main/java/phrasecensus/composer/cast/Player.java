package phrasecensus.composer.cast;

import phrasecensus.composer.line.Habits;

/**
 * A player or student. All are invented.
 *
 * @param name full name
 * @param instrument instrument
 * @param habits how the player differs from the style
 */
public record Player(String name, Instrument instrument, Habits habits) {}
