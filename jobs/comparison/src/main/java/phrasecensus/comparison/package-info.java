/**
 * Groups of the corpus, their norms, contrasts between them, and students held against them: plain
 * Java over values that somebody else has brought together. Knows neither how the corpus is spread
 * nor where its tables lie.
 */
package phrasecensus.comparison;
