/**
 * From the values of many solos to statements about them: quantiles, norms, ranks, intervals,
 * effect sizes, departures and trends. Knows numbers, players and statistic keys; nothing of notes
 * or files.
 */
package phrasecensus.music.norm;
