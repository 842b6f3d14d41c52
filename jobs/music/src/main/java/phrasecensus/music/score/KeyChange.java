package phrasecensus.music.score;

import phrasecensus.music.time.Fraction;

/**
 * A key signature.
 *
 * @param onset in quarter notes from the start of the solo
 * @param concertFifths sharps (positive) or flats (negative) as it sounds; null for a signature
 *     that is not on the circle of fifths
 * @param writtenFifths the same as the player reads it
 * @param mode the file's word, or null; a hint only, many programs always write major
 */
public record KeyChange(
    Fraction onset, Integer concertFifths, Integer writtenFifths, String mode) {}
