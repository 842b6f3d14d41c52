/** Improvised lines as values, and what can be said about them. Knows no file format, no engine. */
package phrasecensus.music;
