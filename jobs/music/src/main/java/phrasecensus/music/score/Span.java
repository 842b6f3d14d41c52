package phrasecensus.music.score;

import phrasecensus.music.time.Fraction;

/**
 * A stretch of score time that is neither note nor rest: slashes, or an empty bar-repeat sign.
 *
 * @param onset in quarter notes from the start of the solo
 * @param end after the last moment of it
 */
public record Span(Fraction onset, Fraction end) {}
