/** Chords as symbols name them: kind, tones, degrees, class. Knows no key and no solo. */
package phrasecensus.music.chord;
