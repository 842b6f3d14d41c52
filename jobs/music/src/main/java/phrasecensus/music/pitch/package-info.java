/** Spelled pitches and note names, and what transposition does to them. */
package phrasecensus.music.pitch;
