/**
 * How a solo is made: phrases are planned over the form, filled with rhythm beat by beat, given
 * pitches by weighted chance over the chords, and spelled. Nothing here knows a file format.
 */
package phrasecensus.composer.line;
