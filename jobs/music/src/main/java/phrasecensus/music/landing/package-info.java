/** Landings: the notes that a line comes to rest on or aims at. */
package phrasecensus.music.landing;
