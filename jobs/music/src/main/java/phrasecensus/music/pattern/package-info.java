/** Melodic figures that come again, at any pitch, with and without their rhythm. */
package phrasecensus.music.pattern;
