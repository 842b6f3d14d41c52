/** Repeatable chance: the same seed gives the same choices on every machine. */
package phrasecensus.composer.chance;
