/**
 * A transcribed solo as values: one line of notes with the bars, chords, keys, metres, tempi and
 * marks around it. Knows no file format.
 */
package phrasecensus.music.score;
