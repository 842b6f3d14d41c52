package phrasecensus.composer.line;

import phrasecensus.composer.harmony.NoteName;

/**
 * One sounding tone of a solo, ties not yet written.
 *
 * @param onset ticks from bar 1, negative in a pickup
 * @param length ticks; positive
 * @param midi sounding MIDI number
 * @param name how it is spelled at sounding pitch
 * @param phrase index of the phrase it belongs to
 * @param mark articulation
 * @param slur true when a short slur leads from here to the next tone
 * @param graceMidi MIDI number of a grace note before it, -1 for none
 */
public record Tone(
    int onset,
    int length,
    int midi,
    NoteName name,
    int phrase,
    Mark mark,
    boolean slur,
    int graceMidi) {
  /** Articulations the composer writes. */
  public enum Mark {
    NONE,
    ACCENT,
    STACCATO,
    TENUTO
  }

  /** First tick after it. */
  public int end() {
    return onset + length;
  }

  Tone spelled(NoteName newName) {
    return new Tone(onset, length, midi, newName, phrase, mark, slur, graceMidi);
  }
}
