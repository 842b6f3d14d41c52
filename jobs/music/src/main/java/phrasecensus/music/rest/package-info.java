/** Where a line breathes, measured on its silences alone, whatever rule cuts it into phrases. */
package phrasecensus.music.rest;
