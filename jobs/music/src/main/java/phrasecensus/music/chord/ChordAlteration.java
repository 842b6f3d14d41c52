package phrasecensus.music.chord;

/**
 * One {@code degree} of a chord symbol (W3C MusicXML 4.0, element {@code degree}).
 *
 * @param type what happens to the degree
 * @param value degree number, 1 to 13
 * @param alter semitones; for {@code ADD} relative to the dominant chord's degree (the seventh
 *     minor), for {@code ALTER} relative to the degree in the chord
 */
public record ChordAlteration(Type type, int value, int alter) {
  /** Add, alter or subtract. */
  public enum Type {
    ADD,
    ALTER,
    SUBTRACT
  }
}
