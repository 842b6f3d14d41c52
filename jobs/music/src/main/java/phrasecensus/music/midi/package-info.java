/**
 * Lines as Standard MIDI Files, to be listened to. Knows how lines sound, not where they come from.
 */
package phrasecensus.music.midi;
