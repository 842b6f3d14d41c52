/** Numbers about music: of a phrase and of a solo, each under the key of the catalogue. */
package phrasecensus.music.statistic;
