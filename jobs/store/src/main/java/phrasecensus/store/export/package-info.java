/**
 * A study leaves the program: a folder of plain files that stands alone. Knows no Spark; tables are
 * streamed, never held.
 */
package phrasecensus.store.export;
