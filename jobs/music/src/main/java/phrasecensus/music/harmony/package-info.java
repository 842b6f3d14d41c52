/** What the chords of a solo make of its notes: degrees, tonal centres, choruses. */
package phrasecensus.music.harmony;
