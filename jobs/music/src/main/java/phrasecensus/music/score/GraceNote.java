package phrasecensus.music.score;

import phrasecensus.music.pitch.Pitch;
import phrasecensus.music.time.Fraction;

/**
 * A grace note: kept as an ornament, outside lengths, density and note values.
 *
 * @param onset where it stands, in quarter notes from the start of the solo
 * @param beforeNote index of the note it leads into; the number of notes when none follows
 * @param slashed true for the short form with a stroke
 */
public record GraceNote(
    Fraction onset, Pitch concert, Pitch written, int beforeNote, boolean slashed) {}
