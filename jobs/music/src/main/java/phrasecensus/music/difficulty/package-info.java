/** How hard a line is to read and to finger, on a scale of five. */
package phrasecensus.music.difficulty;
