package phrasecensus.composer.line;

/**
 * The part of an instrument's range a player uses.
 *
 * @param low lowest sounding MIDI number used
 * @param high highest sounding MIDI number used
 * @param wind true when the player must breathe
 */
public record Compass(int low, int high, boolean wind) {}
