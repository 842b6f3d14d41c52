package phrasecensus.music.rest;

import phrasecensus.music.time.Fraction;

/**
 * What is played from one breath to the next.
 *
 * @param index place in the solo from 0
 * @param firstNote index of its first note
 * @param lastNote index of its last note
 * @param onset of the first note, in quarter notes from the start of the solo
 * @param end of the last note
 * @param bars length in bars of the metre; null where a part of it has no metre
 */
public record Stretch(
    int index, int firstNote, int lastNote, Fraction onset, Fraction end, Fraction bars) {}
