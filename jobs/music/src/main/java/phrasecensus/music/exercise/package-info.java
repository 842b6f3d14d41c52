/** Exercises made from a phrase by stated transformations, only where they stay singable. */
package phrasecensus.music.exercise;
