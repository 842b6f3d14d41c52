/** Harmonic contexts: cadences, turnarounds, blues bars and vamps, and the phrases over them. */
package phrasecensus.music.context;
