/**
 * How a student's solos are held against a group of a corpus: values on scales, tempo taken out,
 * one model of how solos and players vary, and verdicts with intervals that follow from it. Plain
 * Java over values. Arrays are read, never kept or changed, unless a method says otherwise.
 */
package phrasecensus.music.comparison;
