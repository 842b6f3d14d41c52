package phrasecensus.music.score;

import phrasecensus.music.time.Fraction;

/**
 * A tempo.
 *
 * @param onset in quarter notes from the start of the solo
 * @param quartersPerMinute positive
 */
public record TempoChange(Fraction onset, double quartersPerMinute) {}
