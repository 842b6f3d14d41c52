/**
 * Where a line breathes and what it comes to rest on, measured on its silences alone, whatever rule
 * cuts it into phrases.
 */
package phrasecensus.music.rest;
