/**
 * Solos as MusicXML files, written in several manners, as different notation programs would.
 * Element names and order follow the W3C MusicXML 4.0 schema (from memory).
 */
package phrasecensus.composer.score;
