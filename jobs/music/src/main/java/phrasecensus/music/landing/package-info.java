/**
 * Landings: the notes that a line comes to rest on or aims at; and resting notes, which are told by
 * silences and lengths alone.
 */
package phrasecensus.music.landing;
