/** Chords as symbols name them, chord degrees, tonal centres. */
package phrasecensus.music.harmony;
