/** The invented tunes: keys, metres and chord charts. */
package phrasecensus.composer.tune;
