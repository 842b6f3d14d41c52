/** From statistics of many solos to norms: quantiles, ranks, departures. */
package phrasecensus.music.norm;
