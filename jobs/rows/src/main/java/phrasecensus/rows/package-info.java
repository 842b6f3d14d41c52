/**
 * What was heard in a solo as table rows: the only code that fills the columns of the tables of
 * reading.
 */
package phrasecensus.rows;
