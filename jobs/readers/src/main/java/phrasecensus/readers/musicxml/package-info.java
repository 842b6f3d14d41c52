/**
 * MusicXML 4.0 through ProxyMusic's objects, behind a streaming reader that drops what analysis
 * never reads and checks every value. Nothing outside this package sees those objects.
 */
package phrasecensus.readers.musicxml;
