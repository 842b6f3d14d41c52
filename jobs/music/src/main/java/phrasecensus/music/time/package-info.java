/** Exact score time. Positions and lengths are fractions of a quarter note; nothing here rounds. */
package phrasecensus.music.time;
