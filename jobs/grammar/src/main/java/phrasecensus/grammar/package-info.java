/** The elements and attributes of MusicXML that are read, with their valid values: one table. */
package phrasecensus.grammar;
