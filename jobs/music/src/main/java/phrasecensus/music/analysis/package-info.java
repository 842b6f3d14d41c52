/** One solo heard whole: harmony at each note, tonal centres, phrases, landings. */
package phrasecensus.music.analysis;
