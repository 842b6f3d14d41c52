/** Compressed scores: finds the one score inside a zip archive, within limits. Knows no music. */
package phrasecensus.readers.container;
