/**
 * How like solos are over all compared statistics together, and which player and which group a solo
 * is nearest to. Values come on their scales with tempo taken out, as {@code music.comparison}
 * makes them; distances are whitened by how solos of one player vary. Plain Java over values;
 * arrays are read, never kept or changed, unless a method says otherwise.
 */
package phrasecensus.music.likeness;
