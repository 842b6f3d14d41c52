/**
 * MusicXML 4.0 through ProxyMusic's binding, behind a streaming reader that drops what analysis
 * never reads and checks what the binding would lose. Nothing outside this package sees the
 * binding.
 */
package phrasecensus.readers.musicxml;
