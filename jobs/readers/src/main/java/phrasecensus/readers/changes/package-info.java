/** Reads the changes of a tune where people wrote them apart from the solo. */
package phrasecensus.readers.changes;
